# Runs one golden case: CASE.cmd is a shell script (its first line, a comment, is the claim), run in an
# empty folder with the program on PATH and the repository in $SOURCE. What it prints and its exit
# status must equal CASE.out, CASE.err and CASE.exit; a file that is not there means: nothing printed,
# status 0. Folders that differ between machines are printed as {here} and {source}.
# With UPDATE_GOLDEN=1 in the environment the files are written instead.
get_filename_component(folder ${CASE} DIRECTORY)
get_filename_component(name ${CASE} NAME_WE)
get_filename_component(bin ${PROGRAM} DIRECTORY)
file(REMOVE_RECURSE ${SCRATCH})
file(MAKE_DIRECTORY ${SCRATCH})

execute_process(
  COMMAND ${CMAKE_COMMAND} -E env PATH=${bin}:$ENV{PATH} SOURCE=${SOURCE} TZ=<+0545>-5:45 LC_ALL=C.UTF-8
    HOME=${SCRATCH} sh -e ${CASE}
  WORKING_DIRECTORY ${SCRATCH}
  OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE exit)

foreach(stream out err)
  string(REPLACE "${SCRATCH}" "{here}" ${stream} "${${stream}}")
  string(REPLACE "${SOURCE}" "{source}" ${stream} "${${stream}}")
endforeach()
set(empty_out "")
set(empty_err "")
set(empty_exit "0\n")
set(exit "${exit}\n")

set(faults "")
foreach(part out err exit)
  set(file ${folder}/${name}.${part})
  if(DEFINED ENV{UPDATE_GOLDEN} AND "$ENV{UPDATE_GOLDEN}" STREQUAL "1")
    if("${${part}}" STREQUAL "${empty_${part}}")
      file(REMOVE ${file})
    else()
      file(WRITE ${file} "${${part}}")
    endif()
    continue()
  endif()
  set(want "${empty_${part}}")
  if(EXISTS ${file})
    file(READ ${file} want)
  endif()
  if(NOT "${${part}}" STREQUAL "${want}")
    file(WRITE ${SCRATCH}/got.${part} "${${part}}")
    file(WRITE ${SCRATCH}/want.${part} "${want}")
    execute_process(COMMAND diff -u ${SCRATCH}/want.${part} ${SCRATCH}/got.${part} OUTPUT_VARIABLE difference)
    string(APPEND faults "${part} differs:\n${difference}\n")
  endif()
endforeach()
if(faults)
  message(FATAL_ERROR "golden case ${name}:\n${faults}UPDATE_GOLDEN=1 ctest writes the files anew; say in the commit why.")
endif()
