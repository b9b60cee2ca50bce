# find_package(SootsayerSDK 1): the target Sootsayer::sdk with the headers, sootsayer_add_plugin(),
# and SOOTSAYER_PROGRAM, the program that checks plugins. All stand in one tree, found from here.
get_filename_component(_sootsayer_root "${CMAKE_CURRENT_LIST_DIR}/../../.." ABSOLUTE)
if(NOT TARGET Sootsayer::sdk)
  add_library(Sootsayer::sdk INTERFACE IMPORTED)
  set_target_properties(Sootsayer::sdk PROPERTIES
    INTERFACE_INCLUDE_DIRECTORIES "${_sootsayer_root}/include"
    INTERFACE_COMPILE_FEATURES "c_std_11;cxx_std_17")
endif()
find_program(SOOTSAYER_PROGRAM sootsayer HINTS "${_sootsayer_root}/bin" "${_sootsayer_root}"
  NO_DEFAULT_PATH)
if(NOT SOOTSAYER_PROGRAM)
  set(SootsayerSDK_FOUND FALSE)
  set(SootsayerSDK_NOT_FOUND_MESSAGE "the program sootsayer is not in ${_sootsayer_root}/bin")
endif()
include("${CMAKE_CURRENT_LIST_DIR}/SootsayerPlugin.cmake")
