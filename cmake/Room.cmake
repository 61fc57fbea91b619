# wildling_room(NAME DEPENDS wildling::x ... [LIBS other libraries ...])
#
# One folder under src/ is one static library wildling::NAME; its tests are tests/NAME/*_test.cpp
# in one program test_NAME; tests/fuzz/NAME_*.cpp are its fuzz targets. The DEPENDS lines in the
# top CMakeLists.txt are the floor plan; tests/floors_test.py holds the #include lines against it.
include(GoogleTest)

function(wildling_room NAME)
  cmake_parse_arguments(ROOM "" "" "DEPENDS;LIBS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${NAME}/*.cpp
    ${PROJECT_SOURCE_DIR}/src/${NAME}/*/*.cpp)
  file(GLOB headers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/src/${NAME}/*.hpp
    ${PROJECT_SOURCE_DIR}/src/${NAME}/*/*.hpp)
  if(NOT sources)
    return()  # a room that is not built yet
  endif()
  add_library(wildling_${NAME} STATIC ${sources})
  add_library(wildling::${NAME} ALIAS wildling_${NAME})
  target_sources(wildling_${NAME} PUBLIC FILE_SET HEADERS BASE_DIRS ${PROJECT_SOURCE_DIR}/src FILES ${headers})
  set_target_properties(wildling_${NAME} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
  foreach(room IN LISTS ROOM_DEPENDS)
    if(TARGET ${room})
      target_link_libraries(wildling_${NAME} PUBLIC ${room})
    endif()
  endforeach()
  target_link_libraries(wildling_${NAME} PUBLIC wildling_flags PRIVATE ${ROOM_LIBS})
  if(WILDLING_PCH)
    target_precompile_headers(wildling_${NAME} REUSE_FROM wildling_pch)
  endif()
  if(WILDLING_TESTS)
    wildling_room_tests(${NAME} "${ROOM_LIBS}")
  endif()
  if(WILDLING_FUZZ)
    wildling_room_fuzzers(${NAME} "${ROOM_LIBS}")
  endif()
endfunction()

function(wildling_room_tests NAME LIBS)
  file(GLOB tests CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tests/${NAME}/*_test.cpp)
  if(NOT tests)
    return()
  endif()
  add_executable(test_${NAME} ${tests})
  target_link_libraries(test_${NAME} PRIVATE wildling::${NAME} ${LIBS} wildling_embedded GTest::gtest_main
    rapidcheck rapidcheck_gtest)
  target_compile_definitions(test_${NAME} PRIVATE
    WILDLING_REFERENCE="${PROJECT_SOURCE_DIR}/tests/reference" WILDLING_SOURCE="${PROJECT_SOURCE_DIR}")
  if(WILDLING_PCH)
    target_precompile_headers(test_${NAME} REUSE_FROM wildling_test_pch)
  endif()
  gtest_discover_tests(test_${NAME} DISCOVERY_TIMEOUT 60 PROPERTIES LABELS "${NAME}")
endfunction()

function(wildling_room_fuzzers NAME LIBS)
  file(GLOB fuzzers CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tests/fuzz/${NAME}_*.cpp)
  foreach(source IN LISTS fuzzers)
    get_filename_component(stem ${source} NAME_WE)
    add_executable(fuzz_${stem} ${source})
    target_link_libraries(fuzz_${stem} PRIVATE wildling::${NAME} ${LIBS} wildling_embedded)
    target_link_options(fuzz_${stem} PRIVATE -fsanitize=fuzzer)
    set_target_properties(fuzz_${stem} PROPERTIES RUNTIME_OUTPUT_DIRECTORY ${CMAKE_BINARY_DIR}/fuzzers)
  endforeach()
endfunction()
