# wildling_golden_tests(PROGRAM): one ctest per tests/cli/golden/NAME.cmd, see cmake/RunGolden.cmake.
function(wildling_golden_tests PROGRAM)
  file(GLOB cases CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/tests/cli/golden/*.cmd)
  foreach(case IN LISTS cases)
    get_filename_component(name ${case} NAME_WE)
    add_test(NAME cli.${name}
      COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:${PROGRAM}> -DCASE=${case}
        -DSOURCE=${PROJECT_SOURCE_DIR} -DSCRATCH=${CMAKE_BINARY_DIR}/golden/${name}
        -P ${PROJECT_SOURCE_DIR}/cmake/RunGolden.cmake)
    set_tests_properties(cli.${name} PROPERTIES LABELS cli)
  endforeach()
endfunction()
