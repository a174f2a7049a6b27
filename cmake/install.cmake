# What `cmake --install build/release --prefix FOLDER` puts where, and what a package of it holds. The program finds the
# page by its own place (src/cli/serve_command.cpp), so that FOLDER may be anywhere and be moved. Documents keep the
# folders of the project, so that their links hold. --component program leaves the page out, where it is not built.
include(GNUInstallDirs)
set(CMAKE_SKIP_INSTALL_ALL_DEPENDENCY ON)  # what is built decides, not the tests with it

set(page ${CMAKE_SOURCE_DIR}/web/dist)
set(own ${CMAKE_INSTALL_DATADIR}/duskwire)

install(TARGETS duskwire RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR} COMPONENT program)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/data/ DESTINATION ${own} COMPONENT program)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/docs ${CMAKE_SOURCE_DIR}/examples DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(FILES README.md CONTRIBUTING.md CHANGELOG.md LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(CODE "
  if(NOT EXISTS \"${page}/index.html\")
    message(FATAL_ERROR \"The page is not built (no ${page}/index.html): tools/build_page.sh builds it. \"
                        \"--component program installs all but the page.\")
  endif()" COMPONENT page)
install(DIRECTORY ${page}/ DESTINATION ${own}/page COMPONENT page)
