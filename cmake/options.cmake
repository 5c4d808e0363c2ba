# One place for the flags every target of ours shares.
add_library(mitefall_options INTERFACE)
target_include_directories(mitefall_options INTERFACE ${CMAKE_SOURCE_DIR}/src)
target_compile_options(mitefall_options INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wold-style-cast
  -Wnon-virtual-dtor -Woverloaded-virtual -Wformat=2
  # g++ 12 sees null pointers inside Boost.Asio that its own checks rule out.
  $<$<NOT:$<AND:$<CXX_COMPILER_ID:GNU>,$<BOOL:$<TARGET_PROPERTY:MITEFALL_USES_ASIO>>>>:-Wnull-dereference>)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # False positives on string concatenation in g++ 12 (GCC bug 105329).
  target_compile_options(mitefall_options INTERFACE -Wno-restrict)
  # A unit of forty files is sorted through for unused memory ten times otherwise: a twelfth of its time.
  target_compile_options(mitefall_options INTERFACE "SHELL:--param ggc-min-heapsize=786432")
endif()
if(MITEFALL_WHOLE_BUILD)
  # Warnings are for those who can mend them, and a tenth of the time.
  target_compile_options(mitefall_options INTERFACE -w)
elseif(MITEFALL_WERROR)
  target_compile_options(mitefall_options INTERFACE -Werror)
endif()
if(MITEFALL_SANITIZE)
  target_compile_options(mitefall_options INTERFACE
    -fsanitize=${MITEFALL_SANITIZE} -fno-omit-frame-pointer -fno-sanitize-recover=all)
  target_link_options(mitefall_options INTERFACE -fsanitize=${MITEFALL_SANITIZE})
  # GCC's null-dereference analysis reports false positives inside instrumented code.
  target_compile_options(mitefall_options INTERFACE -Wno-null-dereference)
endif()
# What makes a fault in reading somebody's file end the program instead of obeying the file: guarded stacks, checked
# calls of the C library, tables that are read-only once the program runs, no fixed addresses. tests/cli/hardening.py
# looks for all of it in the binary. Sanitizers bring their own checks.
set(MITEFALL_HARDENED OFF)
if(NOT MITEFALL_SANITIZE AND NOT MITEFALL_COVERAGE AND CMAKE_BUILD_TYPE MATCHES "^Rel")
  set(MITEFALL_HARDENED ON)
  target_compile_options(mitefall_options INTERFACE
    -fstack-protector-strong -fstack-clash-protection -U_FORTIFY_SOURCE -D_FORTIFY_SOURCE=2 -fPIE)
  target_link_options(mitefall_options INTERFACE -pie LINKER:-z,relro LINKER:-z,now LINKER:-z,noexecstack)
endif()
if(MITEFALL_COVERAGE)
  target_compile_options(mitefall_options INTERFACE --coverage)
  target_link_options(mitefall_options INTERFACE --coverage)
endif()
