# Two packages for Debian and its kin: the program with its papers, and the library for those who compile.

set(CPACK_PACKAGE_CONTACT "The makers of lobewright <makers@lobewright.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_GENERATOR DEB)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_ENABLE_COMPONENT_DEPENDS ON)

set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME lobewright)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
# Below the project's own description, which is the first line of both.
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
"Sound lobes for your follower; the settings for a lathe, a dividing head or a
rotary table, or the program for a mill with a rotary axis, a lathe with a C
axis or a grinder; a proof that this program cuts that lobe; and what an
indicator should read on the finished one.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME liblobewright-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
"The library, for programs in C++20: headers and archive, with a CMake package
and a pkg-config file.")
if(BUILD_SHARED_LIBS)  # the library itself then comes with the program
    set(CPACK_COMPONENT_DEVELOPMENT_DEPENDS program)
    set(CPACK_DEBIAN_PACKAGE_GENERATE_SHLIBS ON)
endif()

set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_CURRENT_SOURCE_DIR}/debian_layout.cmake)
