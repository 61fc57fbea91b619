# wildling_embed(TARGET ROOT files...): puts files into the program as they are. Generates an
# assembler file with .incbin (0.1 s for 2 MB, a C array takes 2.8 s) and a table of names.
# A file's name inside the program is its path relative to ROOT ("man/wildling.md" for one beside ROOT); a
# file of build/web/ is called page/NAME without its ".gz", and its bytes are gzipped.
function(wildling_embed TARGET ROOT)
  set(asm ".section .rodata\n")
  set(decl "")
  set(table "")
  set(n 0)
  foreach(file IN LISTS ARGN)
    file(RELATIVE_PATH name ${ROOT} ${file})
    string(REGEX REPLACE "^\\.\\./" "" name ${name})
    string(REGEX REPLACE "^build/web/(.*)\\.gz$" "page/\\1" name ${name})
    string(APPEND asm ".global wildling_file_${n}_begin\n.global wildling_file_${n}_end\n"
      ".balign 16\nwildling_file_${n}_begin:\n.incbin \"${file}\"\nwildling_file_${n}_end:\n.byte 0\n")
    string(APPEND decl "extern const char wildling_file_${n}_begin[];\nextern const char wildling_file_${n}_end[];\n")
    string(APPEND table "  {\"${name}\", wildling_file_${n}_begin, wildling_file_${n}_end},\n")
    math(EXPR n "${n} + 1")
  endforeach()
  string(APPEND asm ".section .note.GNU-stack,\"\",@progbits\n")
  set(dir ${CMAKE_BINARY_DIR}/embedded)
  file(CONFIGURE OUTPUT ${dir}/files.S CONTENT "${asm}" @ONLY)
  file(CONFIGURE OUTPUT ${dir}/files.cpp CONTENT
"#include \"base/embedded.hpp\"\nextern \"C\" {\n${decl}}\nnamespace wildling::embedded_detail {\nextern const Entry kEntries[];\nextern const unsigned kCount;\nconst Entry kEntries[] = {\n${table}  {nullptr, nullptr, nullptr}};\nconst unsigned kCount = ${n};\n}  // namespace wildling::embedded_detail\n" @ONLY)
  add_library(${TARGET} STATIC ${dir}/files.S ${dir}/files.cpp)
  target_link_libraries(${TARGET} PRIVATE wildling_flags)
  set_property(SOURCE ${dir}/files.S PROPERTY OBJECT_DEPENDS "${ARGN}")
endfunction()
