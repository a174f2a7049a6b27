# Sources of a target packed into files that each include several (tools/group_sources.py): a build from clean takes less
# than half the time, so ./run and ./test ask for it. For work on one file at a time each is better compiled alone.
option(DUSKWIRE_GROUPED "Compile the sources of a target several at a time" OFF)
find_package(Python3 REQUIRED COMPONENTS Interpreter)

# Files that are compiled with options of their own, which must not reach a neighbour.
set(duskwire_alone
  src/geometry/own_ray_caster.cpp
  src/electrical/loads.cpp
  src/electrical/forest.cpp
  src/light/unshadowed.cpp
  src/light/receiver_block.cpp
  src/light/night_layer.cpp
  src/light/night_picture.cpp
  src/paper/pdf_finish.cpp
  src/cli/exact_proof.cpp)

# Puts the files to compile into the variable `out`. What shares a group depends on the names in the sources, so that
# tools/build configures anew each time.
function(duskwire_grouped out name)
  set(together ${ARGN})
  set(alone "")
  foreach(source ${ARGN})
    foreach(own ${duskwire_alone})
      if(source STREQUAL "${CMAKE_SOURCE_DIR}/${own}")
        list(REMOVE_ITEM together ${source})
        list(APPEND alone ${source})
      endif()
    endforeach()
  endforeach()
  list(LENGTH together count)
  if(DUSKWIRE_GROUPED AND count GREATER 1)
    execute_process(COMMAND ${Python3_EXECUTABLE} ${CMAKE_SOURCE_DIR}/tools/group_sources.py
                            ${CMAKE_BINARY_DIR}/groups/${name} 24 ${together}
                    OUTPUT_VARIABLE together OUTPUT_STRIP_TRAILING_WHITESPACE COMMAND_ERROR_IS_FATAL ANY)
    string(REPLACE "\n" ";" together "${together}")
  endif()
  set(${out} ${together} ${alone} PARENT_SCOPE)
endfunction()
