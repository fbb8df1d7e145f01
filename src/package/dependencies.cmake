# SPDX-License-Identifier: MIT
# Finds what the libraries of ovendays are built with. The build includes this file, and so does the installed
# ovendaysConfig.cmake, so that both link the same things.
if(NOT CMAKE_C_COMPILER_LOADED)
  message(FATAL_ERROR "CMake finds HDF5 with the C compiler: name it in your project(... LANGUAGES C CXX)")
endif()
find_package(tomlplusplus REQUIRED)
find_package(OpenMP REQUIRED COMPONENTS CXX)

# HDF5's shared library pulls in some forty others that nothing here uses. Where there is no static one, the shared one is
# taken.
if(NOT TARGET ovendays_hdf5)
  set(HDF5_USE_STATIC_LIBRARIES ON)
  find_package(HDF5 REQUIRED COMPONENTS C HL)
  add_library(ovendays_hdf5 INTERFACE IMPORTED GLOBAL)
  target_include_directories(ovendays_hdf5 INTERFACE ${HDF5_INCLUDE_DIRS})
  target_link_libraries(ovendays_hdf5 INTERFACE ${HDF5_C_HL_LIBRARIES} ${HDF5_C_LIBRARIES})
endif()

if(NOT TARGET ovendays_udunits2)
  find_path(UDUNITS2_INCLUDE_DIR udunits2.h PATH_SUFFIXES udunits2)
  find_library(UDUNITS2_LIBRARY udunits2)
  if(NOT UDUNITS2_INCLUDE_DIR OR NOT UDUNITS2_LIBRARY)
    message(FATAL_ERROR "ovendays needs UDUNITS-2 (Debian: libudunits2-dev)")
  endif()
  add_library(ovendays_udunits2 INTERFACE IMPORTED GLOBAL)
  target_include_directories(ovendays_udunits2 INTERFACE ${UDUNITS2_INCLUDE_DIR})
  target_link_libraries(ovendays_udunits2 INTERFACE ${UDUNITS2_LIBRARY})
endif()
