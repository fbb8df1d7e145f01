# SPDX-License-Identifier: MIT
# What Debian's policy wants in /usr/share/doc: the copyright, and both change logs compressed.
find_program(OVENDAYS_GZIP gzip REQUIRED)
function(compressed source target)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/${source})
  execute_process(COMMAND ${OVENDAYS_GZIP} -9nc ${CMAKE_CURRENT_SOURCE_DIR}/${source}
                  OUTPUT_FILE ${CMAKE_CURRENT_BINARY_DIR}/${target} COMMAND_ERROR_IS_FATAL ANY)
endfunction()
compressed(CHANGES.md changelog.gz)
compressed(debian/changelog changelog.Debian.gz)

# HDF5 is linked statically: its licence asks that its notice goes with the program.
set(hdf5_notice "")
if(EXISTS /usr/share/doc/libhdf5-dev/copyright)
  configure_file(/usr/share/doc/libhdf5-dev/copyright hdf5-copyright COPYONLY)
  set(hdf5_notice ${CMAKE_CURRENT_BINARY_DIR}/hdf5-copyright)
endif()
install(FILES debian/copyright ${CMAKE_CURRENT_BINARY_DIR}/changelog.gz
              ${CMAKE_CURRENT_BINARY_DIR}/changelog.Debian.gz ${hdf5_notice}
        DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/ovendays COMPONENT program)
install(FILES debian/copyright ${CMAKE_CURRENT_BINARY_DIR}/changelog.gz
              ${CMAKE_CURRENT_BINARY_DIR}/changelog.Debian.gz
        DESTINATION ${CMAKE_INSTALL_DATADIR}/doc/libovendays-dev COMPONENT development)
