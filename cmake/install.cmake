# What `cmake --install build/release --prefix FOLDER` puts where.
include(GNUInstallDirs)

if(TARGET duskwire)
  install(TARGETS duskwire RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
endif()
install(DIRECTORY ${CMAKE_SOURCE_DIR}/data/ DESTINATION ${CMAKE_INSTALL_DATADIR}/duskwire)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY ${CMAKE_SOURCE_DIR}/examples DESTINATION ${CMAKE_INSTALL_DOCDIR})
foreach(file README.md CHANGELOG.md LICENSE)
  install(FILES ${CMAKE_SOURCE_DIR}/${file} DESTINATION ${CMAKE_INSTALL_DOCDIR})
endforeach()
