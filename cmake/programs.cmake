# `belvedere`, the command line: one file a subcommand.
file(GLOB cli_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/src/cli/*.cpp)
if(cli_sources)
  add_executable(belvedere ${cli_sources})
  target_link_libraries(belvedere PRIVATE belvedere_flags room_requirements CLI11::CLI11
    nlohmann_json::nlohmann_json)
  if(BELVEDERE_QT)
    target_link_libraries(belvedere PRIVATE room_drawing)
    target_compile_definitions(belvedere PRIVATE BELVEDERE_QT)
  endif()
  target_compile_definitions(belvedere PRIVATE BELVEDERE_VERSION="${PROJECT_VERSION}")
endif()

# `belvedere-desk`, the window.
if(BELVEDERE_QT)
  add_executable(belvedere-desk ${CMAKE_SOURCE_DIR}/src/desk/program/main.cpp)
  target_link_libraries(belvedere-desk PRIVATE belvedere_flags room_desk)
  target_compile_definitions(belvedere-desk PRIVATE BELVEDERE_VERSION="${PROJECT_VERSION}")
endif()
