# SPDX-License-Identifier: MIT
# Packages: "cmake --build BUILD --target package", or cpack in the build folder. The Debian packages, ovendays and
# libovendays-dev, are made of a build that was configured with -DCMAKE_INSTALL_PREFIX=/usr.
set(CPACK_PACKAGE_NAME ovendays)
set(CPACK_PACKAGE_VENDOR "ovendays maintainers")
set(CPACK_PACKAGE_CONTACT "ovendays maintainers <ovendays@example.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "feasibility of home-built box solar ovens")
set(CPACK_RESOURCE_FILE_LICENSE ${CMAKE_CURRENT_SOURCE_DIR}/LICENSE.txt)
set(CPACK_PACKAGING_INSTALL_PREFIX ${CMAKE_INSTALL_PREFIX})
set(CPACK_STRIP_FILES ON)
set(CPACK_VERBATIM_VARIABLES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_GENERATOR TGZ)
if(on_debian)
  set(CPACK_GENERATOR DEB)
endif()
set(CPACK_PROJECT_CONFIG_FILE ${CMAKE_CURRENT_SOURCE_DIR}/cpack_checks.cmake)

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME ovendays)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
"Simulates a home-built box solar oven through a year at one place: from a
typical weather year, what stands around the oven, its design and the cook's
routine it finds on how many days of each month each cooking task gets done,
and what spoilt the other days. Results are saved as HDF5, CSV, SVG and HTML.
.
This package holds the program, its manual pages and shell completions, three
made weather years and a demonstration study.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libovendays-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
    "ovendays (= ${PROJECT_VERSION}-1), libhdf5-dev, libtomlplusplus-dev, libudunits2-dev")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
"Headers, static libraries and the CMake package of ovendays, the simulation of
box solar ovens, for programs that run seasons themselves. An example to start
from lies in /usr/share/ovendays/example.")
include(CPack)
