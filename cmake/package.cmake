# The Debian package, from the same rules as an installation: tools/make_deb builds what it holds and calls cpack.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The duskwire project <duskwire@example.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "Design, check, price and service low-voltage garden lighting")
set(CPACK_PACKAGE_DESCRIPTION "For contractors of 12 volt outdoor lighting: what every lamp sees at the
end of its cable, what to buy, what it costs, how the garden looks by
night, and where to dig when a lamp goes dark. A command, and a page in
the browser that it serves on this computer.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
# One package of both components.
set(CPACK_DEB_COMPONENT_INSTALL OFF)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
# Libraries by what the program is linked with; besides these it reads the zones of time, and writes papers in letters.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "tzdata, fonts-dejavu-core, fonts-noto-core")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS fonts-droid-fallback)
include(CPack)
