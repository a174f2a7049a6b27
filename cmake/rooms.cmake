# A room is a folder below src/ that becomes one static library of the same name.
# Its sources are found, not listed: a new file needs no change here.

add_library(duskwire_options INTERFACE)
target_include_directories(duskwire_options INTERFACE ${CMAKE_SOURCE_DIR}/src)
target_compile_options(duskwire_options INTERFACE -Wall -Wextra -Werror)
target_compile_definitions(duskwire_options INTERFACE DUSKWIRE_VERSION="${PROJECT_VERSION}")

# External libraries by room: the only rooms that may use them (tools/check_layers.py reads includes, this links them).
set(duskwire_external_base fmt::fmt)
set(duskwire_external_geometry ${duskwire_embree})
set(duskwire_external_pictures PNG::PNG ${duskwire_turbojpeg} ${duskwire_webp})
set(duskwire_external_electrical Eigen3::Eigen)
set(duskwire_external_light Eigen3::Eigen)
set(duskwire_external_formats nlohmann_json::nlohmann_json)
set(duskwire_external_paper ${duskwire_cairo})
set(duskwire_external_office PkgConfig::duskwire_xlsx PkgConfig::duskwire_zip)
set(duskwire_external_zones date::date-tz)
set(duskwire_external_store SQLiteCpp SQLite::SQLite3 OpenSSL::Crypto)
set(duskwire_external_server nlohmann_json::nlohmann_json Boost::headers Threads::Threads OpenSSL::Crypto)
set(duskwire_external_cli nlohmann_json::nlohmann_json)
set(duskwire_external_wasm nlohmann_json::nlohmann_json)

# The library duskwire_<name> of a folder, on top of the lower rooms that follow.
function(duskwire_library name sources)
  if(sources)
    add_library(duskwire_${name} STATIC ${sources})
    set(scope PUBLIC)
  else()
    add_library(duskwire_${name} INTERFACE)
    set(scope INTERFACE)
  endif()
  target_link_libraries(duskwire_${name} ${scope} duskwire_options ${duskwire_external_${name}})
  foreach(room ${ARGN})
    target_link_libraries(duskwire_${name} ${scope} duskwire_${room})
  endforeach()
endfunction()

function(duskwire_room name)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/${name}/*.cpp)
  duskwire_library(${name} "${sources}" ${ARGN})
endfunction()

# A program whose sources are the folder src/<folder>; all but main.cpp are also a library, so that tests reach them.
function(duskwire_program name folder)
  if(NOT EXISTS ${CMAKE_SOURCE_DIR}/src/${folder}/main.cpp)
    return()
  endif()
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/${folder}/*.cpp)
  list(FILTER sources EXCLUDE REGEX "main\\.cpp$")
  duskwire_library(${folder} "${sources}" ${ARGN})
  add_executable(${name} ${CMAKE_SOURCE_DIR}/src/${folder}/main.cpp)
  target_link_libraries(${name} PRIVATE duskwire_${folder})
endfunction()
