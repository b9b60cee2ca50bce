# sootsayer_add_plugin(NAME [SOURCES a.cpp ...]): makes plugins/NAME/ in the build folder, with all
# that belongs in a plugin's folder: plugin.toml and families/ from the current source folder, the
# library (without SOURCES the families are text alone), and plugin.sha256, by which damage on the
# way is seen. Id and version come from plugin.toml as SOOT_PLUGIN_ID and SOOT_PLUGIN_VERSION, so
# that they are written once. CTest then runs the program's own check of the folder.

function(sootsayer_add_plugin name)
  cmake_parse_arguments(ARG "" "" "SOURCES" ${ARGN})
  set(folder ${PROJECT_BINARY_DIR}/plugins/${name})
  if(CMAKE_CURRENT_BINARY_DIR STREQUAL folder)
    message(FATAL_ERROR "${folder} is CMake's own (expected add_subdirectory with another folder)")
  endif()
  set(source ${CMAKE_CURRENT_SOURCE_DIR})
  set(here ${CMAKE_CURRENT_FUNCTION_LIST_DIR})
  file(GLOB families CONFIGURE_DEPENDS ${source}/families/*.toml)
  set(data ${source}/plugin.toml ${families})
  set(fill ${CMAKE_COMMAND} -D FOLDER=${folder} -D SOURCE=${source} -P ${here}/fill_folder.cmake)

  if(ARG_SOURCES)
    set(map ${here}/plugin.map)
    add_library(${name} MODULE ${ARG_SOURCES})
    target_link_libraries(${name} PRIVATE Sootsayer::sdk)
    set_target_properties(${name} PROPERTIES
      PREFIX "" SUFFIX .so LIBRARY_OUTPUT_DIRECTORY ${folder} LINK_DEPENDS "${map};${data}"
      C_VISIBILITY_PRESET hidden CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON)
    # A missing symbol is found here, not on the mechanic's machine. (clang's sanitizers forbid it.)
    target_link_options(${name} PRIVATE -Wl,--version-script=${map}
      $<$<LINK_LANG_AND_ID:C,GNU>:-Wl,-z,defs> $<$<LINK_LANG_AND_ID:CXX,GNU>:-Wl,-z,defs>)
    add_custom_command(TARGET ${name} POST_BUILD COMMAND ${fill} VERBATIM)
  else()
    add_custom_command(OUTPUT ${folder}/plugin.sha256 COMMAND ${fill} DEPENDS ${data} VERBATIM)
    add_custom_target(${name} ALL DEPENDS ${folder}/plugin.sha256)
  endif()

  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${source}/plugin.toml)
  if(ARG_SOURCES)
    foreach(key id version)
      file(STRINGS ${source}/plugin.toml line REGEX "^${key} *=" LIMIT_COUNT 1)
      string(REGEX REPLACE "^[^\"]*\"([^\"]*)\".*" "\\1" value "${line}")
      string(TOUPPER ${key} word)
      target_compile_definitions(${name} PRIVATE SOOT_PLUGIN_${word}="${value}")
    endforeach()
  endif()

  if(TARGET sootsayer)
    add_test(NAME "plugin check ${name}" COMMAND sootsayer plugin check ${folder})
  else()
    add_test(NAME "plugin check ${name}" COMMAND ${SOOTSAYER_PROGRAM} plugin check ${folder})
  endif()
endfunction()
