# Flags of our own code only: an INTERFACE target that nobody else links.
add_library(wildling_flags INTERFACE)
target_compile_features(wildling_flags INTERFACE cxx_std_20)
# -ffp-contract=off: golden results must not depend on fused multiply-add.
target_compile_options(wildling_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast
  -Wnon-virtual-dtor -Woverloaded-virtual -Wdouble-promotion -ffp-contract=off)
if(WILDLING_WERROR)
  target_compile_options(wildling_flags INTERFACE -Werror)
endif()
target_include_directories(wildling_flags INTERFACE ${PROJECT_SOURCE_DIR}/src)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  find_program(WILDLING_MOLD mold)
  if(WILDLING_MOLD)
    target_link_options(wildling_flags INTERFACE -fuse-ld=mold)
  endif()
endif()
find_program(WILDLING_CCACHE ccache)
if(WILDLING_CCACHE)
  set(launcher ${CMAKE_COMMAND} -E env CCACHE_BASEDIR=${PROJECT_SOURCE_DIR} CCACHE_NOHASHDIR=1
    CCACHE_SLOPPINESS=pch_defines,time_macros,include_file_mtime,include_file_ctime ${WILDLING_CCACHE})
  set(CMAKE_CXX_COMPILER_LAUNCHER ${launcher})
  set(CMAKE_C_COMPILER_LAUNCHER ${launcher})
endif()
