# The libraries that are not ours, under the same target names on every platform. A native build takes Debian's
# packages. Emscripten must not see /usr/include (it has a C library of its own), so the header-only ones come to it
# through a folder of links, and GoogleTest is compiled from Debian's source package.

if(NOT EMSCRIPTEN)
  find_package(fmt REQUIRED)
  find_package(Eigen3 REQUIRED NO_MODULE)
  find_package(nlohmann_json REQUIRED)
  if(DUSKWIRE_TESTS)
    find_package(GTest REQUIRED)
  endif()
  return()
endif()

set(duskwire_links ${CMAKE_BINARY_DIR}/include)
file(MAKE_DIRECTORY ${duskwire_links})

function(duskwire_header_only target name folder)
  if(NOT EXISTS ${folder})
    message(FATAL_ERROR "${folder} is missing: tools/ensure_packages build installs it")
  endif()
  file(CREATE_LINK ${folder} ${duskwire_links}/${name} SYMBOLIC)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${target} INTERFACE ${duskwire_links})
endfunction()

# fmt once, as a library: each file that takes it header-only costs the compiler three to five seconds more.
duskwire_header_only(duskwire_fmt_headers fmt /usr/include/fmt)
add_library(duskwire_fmt STATIC ${CMAKE_SOURCE_DIR}/cmake/fmt_for_wasm.cpp)
target_link_libraries(duskwire_fmt PUBLIC duskwire_fmt_headers)
add_library(fmt::fmt ALIAS duskwire_fmt)
duskwire_header_only(Eigen3::Eigen Eigen /usr/include/eigen3/Eigen)
duskwire_header_only(nlohmann_json::nlohmann_json nlohmann /usr/include/nlohmann)

if(DUSKWIRE_TESTS)
  set(source /usr/src/googletest)
  if(NOT EXISTS ${source})
    message(FATAL_ERROR "${source} is missing: tools/ensure_packages test installs it")
  endif()
  add_library(duskwire_gtest STATIC ${source}/googletest/src/gtest-all.cc ${source}/googletest/src/gtest_main.cc
                                    ${source}/googlemock/src/gmock-all.cc)
  target_include_directories(duskwire_gtest SYSTEM PUBLIC ${source}/googletest/include ${source}/googlemock/include)
  target_include_directories(duskwire_gtest PRIVATE ${source}/googletest ${source}/googlemock)
  target_compile_definitions(duskwire_gtest PUBLIC GTEST_HAS_PTHREAD=0)
  add_library(GTest::gtest_main ALIAS duskwire_gtest)
  add_library(GTest::gmock ALIAS duskwire_gtest)
endif()
