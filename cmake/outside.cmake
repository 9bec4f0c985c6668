# Checks against other people's libraries (tests/outside/*_test.cpp), each a program of its own and
# only where that library is installed: the product links none of them.
#   belvedere_outside_test(<name> SOURCES <files> LIBS <libraries>)
function(belvedere_outside_test name)
  cmake_parse_arguments(T "" "" "SOURCES;LIBS" ${ARGN})
  list(TRANSFORM T_SOURCES PREPEND ${CMAKE_SOURCE_DIR}/tests/outside/)
  add_executable(test_outside_${name} ${T_SOURCES})
  target_link_libraries(test_outside_${name} PRIVATE belvedere_flags ${T_LIBS} GTest::gtest_main)
  target_compile_definitions(test_outside_${name} PRIVATE
    BELVEDERE_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
  gtest_discover_tests(test_outside_${name} DISCOVERY_MODE PRE_TEST PROPERTIES TIMEOUT 600)
endfunction()

find_package(OpenCV QUIET COMPONENTS core calib3d)
if(OpenCV_FOUND)
  belvedere_outside_test(opencv SOURCES opencv_projection_test.cpp
    LIBS room_optics opencv_core opencv_calib3d)
  belvedere_outside_test(opencv_picture SOURCES opencv_picture_test.cpp
    LIBS room_picture opencv_core opencv_calib3d)
else()
  message(STATUS "OpenCV not found: its projection is not compared")
endif()

find_program(GDAL_VIEWSHED gdal_viewshed)
if(GDAL_VIEWSHED)
  belvedere_outside_test(terrain SOURCES terrain_viewshed_test.cpp LIBS room_scene)
else()
  message(STATUS "gdal_viewshed not found: terrain is not compared")
endif()

find_package(CGAL QUIET CONFIG)
if(CGAL_FOUND)
  belvedere_outside_test(visibility SOURCES visibility_test.cpp LIBS room_proof)
  # Headers alone, and theirs: our warnings are not for them.
  target_link_libraries(test_outside_visibility PRIVATE CGAL::CGAL)
  if(BELVEDERE_SANITIZE MATCHES undefined)  # CGAL's own iterators cast their end to what it is not
    set_source_files_properties(${CMAKE_SOURCE_DIR}/tests/outside/visibility_test.cpp PROPERTIES
      COMPILE_OPTIONS -fno-sanitize=vptr)
  endif()
else()
  message(STATUS "CGAL not found: occlusion in plan is not compared")
endif()

# Positions of the sun for sun_almanac_test.py, which asks a second astronomy library.
add_executable(sun_positions ${CMAKE_SOURCE_DIR}/tests/outside/sun_positions.cpp)
target_link_libraries(sun_positions PRIVATE belvedere_flags room_light)
