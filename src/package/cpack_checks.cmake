# SPDX-License-Identifier: MIT
# Read by cpack before it makes a package.
if(CPACK_GENERATOR STREQUAL "DEB" AND NOT CPACK_PACKAGING_INSTALL_PREFIX STREQUAL "/usr")
  message(FATAL_ERROR "A Debian package installs under /usr: configure with -DCMAKE_INSTALL_PREFIX=/usr, "
                      "not ${CPACK_PACKAGING_INSTALL_PREFIX}")
endif()
