# Settings of programs that emscripten makes for Node. Nothing on other platforms.

if(EMSCRIPTEN)
  # Debian keeps the linker's JavaScript parser where Node does not look by itself.
  set_property(GLOBAL PROPERTY RULE_LAUNCH_LINK "env NODE_PATH=/usr/share/nodejs")
endif()

function(duskwire_for_node target)
  if(NOT EMSCRIPTEN)
    return()
  endif()
  # The linker's own optimiser takes longer than the tests run: not for them.
  # Files are read straight from the disk; the memory grows; an exit code reaches the shell. The prelude hides fetch():
  # this emscripten takes any fetch for a browser's, and Node's own cannot read a file.
  target_link_options(${target} PRIVATE -O1 -sNODERAWFS=1 -sALLOW_MEMORY_GROWTH=1 -sEXIT_RUNTIME=1
                      -sENVIRONMENT=node --pre-js ${CMAKE_SOURCE_DIR}/cmake/node_prelude.js)
endfunction()
