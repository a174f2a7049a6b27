# Data files as text inside a program. duskwire_embed(<target> <file below data/>...) gives the target the function
# declared in wasm/embedded_data.hpp. Run with -P it writes the generated source.

if(CMAKE_SCRIPT_MODE_FILE STREQUAL CMAKE_CURRENT_LIST_FILE)
  file(WRITE ${OUT} "// SPDX-License-Identifier: Apache-2.0\n// Generated from data/ by cmake/embed.cmake.\n"
                    "#include \"wasm/embedded_data.hpp\"\n\nnamespace duskwire::wasm {\n\n"
                    "std::span<const EmbeddedFile> embedded_files() {\n  static constexpr EmbeddedFile files[] = {\n")
  foreach(name ${NAMES})
    file(READ ${DATA}/${name} text)
    file(APPEND ${OUT} "      {\"${name}\", R\"embedded(")
    file(APPEND ${OUT} "${text}")
    file(APPEND ${OUT} ")embedded\"},\n")
  endforeach()
  file(APPEND ${OUT} "  };\n  return files;\n}\n\n}  // namespace duskwire::wasm\n")
  return()
endif()

set(duskwire_embed_script ${CMAKE_CURRENT_LIST_FILE})
function(duskwire_embed target)
  set(data ${CMAKE_SOURCE_DIR}/data)
  list(TRANSFORM ARGN PREPEND ${data}/ OUTPUT_VARIABLE files)
  set(out ${CMAKE_CURRENT_BINARY_DIR}/embedded_data.cpp)
  add_custom_command(OUTPUT ${out} DEPENDS ${files} ${duskwire_embed_script} VERBATIM
    COMMAND ${CMAKE_COMMAND} -DOUT=${out} -DDATA=${data} "-DNAMES=${ARGN}" -P ${duskwire_embed_script})
  target_sources(${target} PRIVATE ${out})
endfunction()
