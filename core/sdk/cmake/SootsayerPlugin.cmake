# sootsayer_add_plugin(NAME SOURCES a.cpp ...): builds the plugin whose plugin.toml (and families/,
# if any) stand in the current source folder, as plugins/NAME/ of the build folder with all it
# needs. Id and version come from plugin.toml as SOOT_PLUGIN_ID and SOOT_PLUGIN_VERSION, so that
# they are written once.

function(sootsayer_add_plugin name)
  cmake_parse_arguments(ARG "" "" "SOURCES" ${ARGN})
  set(folder ${PROJECT_BINARY_DIR}/plugins/${name})
  set(source ${CMAKE_CURRENT_SOURCE_DIR})
  set(map ${CMAKE_CURRENT_FUNCTION_LIST_DIR}/plugin.map)
  add_library(${name} MODULE ${ARG_SOURCES})
  target_link_libraries(${name} PRIVATE soot_sdk)
  set_target_properties(${name} PROPERTIES
    PREFIX "" SUFFIX .so LIBRARY_OUTPUT_DIRECTORY ${folder} LINK_DEPENDS ${map}
    C_VISIBILITY_PRESET hidden CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON)
  # A missing symbol is found here, not on the mechanic's machine. (clang's sanitizers forbid it.)
  target_link_options(${name} PRIVATE -Wl,--version-script=${map}
    $<$<LINK_LANG_AND_ID:C,GNU>:-Wl,-z,defs> $<$<LINK_LANG_AND_ID:CXX,GNU>:-Wl,-z,defs>)

  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${source}/plugin.toml)
  foreach(key id version)
    file(STRINGS ${source}/plugin.toml line REGEX "^${key} *=" LIMIT_COUNT 1)
    string(REGEX REPLACE "^[^\"]*\"([^\"]*)\".*" "\\1" value "${line}")
    string(TOUPPER ${key} word)
    target_compile_definitions(${name} PRIVATE SOOT_PLUGIN_${word}="${value}")
  endforeach()

  file(GLOB families CONFIGURE_DEPENDS ${source}/families/*.toml)
  set(copy COMMAND ${CMAKE_COMMAND} -E copy_if_different ${source}/plugin.toml ${folder}/)
  if(families)
    list(APPEND copy COMMAND ${CMAKE_COMMAND} -E rm -rf ${folder}/families
      COMMAND ${CMAKE_COMMAND} -E copy_directory ${source}/families ${folder}/families)
  endif()
  set(stamp ${CMAKE_CURRENT_BINARY_DIR}/${name}.data)
  add_custom_command(OUTPUT ${stamp} ${copy} COMMAND ${CMAKE_COMMAND} -E touch ${stamp}
    DEPENDS ${source}/plugin.toml ${families} VERBATIM)
  add_custom_target(${name}_data ALL DEPENDS ${stamp})
  add_dependencies(${name} ${name}_data)
endfunction()
