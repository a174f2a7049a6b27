# SPDX-License-Identifier: Apache-2.0
# Puts data/**/*.json into a library as text, so that command and page need no files beside them. Included by the build
# it defines duskwire_embed(); run as a script (-P, by the build itself) it writes the source file.

if(CMAKE_SCRIPT_MODE_FILE)
  set(text "// Made by cmake/embed.cmake from data/: change the files there.\n#include \"formats/embedded_files.hpp\"\n\n")
  string(APPEND text "namespace duskwire::formats {\n\nconst EmbeddedFile embedded_files[] = {\n")
  file(GLOB_RECURSE files RELATIVE ${DATA} ${DATA}/*.json)
  list(SORT files)
  foreach(name ${files})
    file(READ ${DATA}/${name} content)
    string(FIND "${content}" ")duskwire\"" end)
    if(NOT end EQUAL -1)
      message(FATAL_ERROR "${name} holds the mark that ends an embedded file")
    endif()
    string(APPEND text "    {\"${name}\", R\"duskwire(${content})duskwire\"},\n")
  endforeach()
  list(LENGTH files count)
  string(APPEND text "};\nconst std::size_t embedded_file_count = ${count};\n\n}  // namespace duskwire::formats\n")
  file(WRITE ${OUTPUT} "${text}")
  return()
endif()

function(duskwire_embed target)
  set(data ${CMAKE_SOURCE_DIR}/data)
  set(output ${CMAKE_BINARY_DIR}/generated/embedded_files.cpp)
  file(GLOB_RECURSE files CONFIGURE_DEPENDS ${data}/*.json)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DDATA=${data} -DOUTPUT=${output} -P ${CMAKE_SOURCE_DIR}/cmake/embed.cmake
    DEPENDS ${files} ${CMAKE_SOURCE_DIR}/cmake/embed.cmake
    COMMENT "Embedding data/"
    VERBATIM)
  target_sources(${target} PRIVATE ${output})
endfunction()
