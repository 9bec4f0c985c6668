# Benchmarks (BELVEDERE_BENCH=ON): programs that print medians and ratios; people judge. Peers are
# looked for here alone: the product links none of them.
find_package(OpenCV QUIET COMPONENTS core calib3d)
if(OpenCV_FOUND)
  add_executable(bench_projection bench/bench_projection.cpp)
  target_link_libraries(bench_projection PRIVATE belvedere_flags room_optics opencv_core
    opencv_calib3d)
else()
  message(STATUS "OpenCV not found: no bench_projection")
endif()

add_executable(bench_preview bench/bench_preview.cpp)
target_link_libraries(bench_preview PRIVATE belvedere_flags room_proof)

# Proof by cells and shafts against raw rays.
add_executable(bench_proof bench/bench_proof.cpp)
target_link_libraries(bench_proof PRIVATE belvedere_flags room_proof)

# Pictures against raw rays.
add_executable(bench_picture bench/bench_picture.cpp)
target_link_libraries(bench_picture PRIVATE belvedere_flags room_picture)

# How quick the window feels.
if(BELVEDERE_QT)
  add_executable(bench_desk bench/bench_desk.cpp)
  target_link_libraries(bench_desk PRIVATE belvedere_flags room_desk)
endif()
