# Fuzz targets (libFuzzer, clang): fuzz/fuzz_<name>.cpp becomes fuzz_<name>, its seeds lie in
# fuzz/seeds/<name>/. A crash becomes a seed, named crash_*, and a Regression test. Run one with
#   cmake --preset fuzz && cmake --build --preset fuzz --target fuzz_design fuzz_catalogue
#   build/fuzz/fuzz_design -max_total_time=600 <a folder that may grow> fuzz/seeds/design
if(NOT CMAKE_CXX_COMPILER_ID MATCHES "Clang")
  message(FATAL_ERROR "the fuzz targets need clang (cmake --preset fuzz)")
endif()
# Coverage is wanted in our own rooms too, not only in the targets.
target_compile_options(belvedere_flags INTERFACE -fsanitize=fuzzer-no-link)
file(GLOB fuzz_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/fuzz/fuzz_*.cpp)
foreach(source ${fuzz_sources})
  get_filename_component(name ${source} NAME_WE)
  add_executable(${name} ${source})
  target_link_libraries(${name} PRIVATE belvedere_flags room_light)
  target_link_options(${name} PRIVATE -fsanitize=fuzzer)
endforeach()
