# mitefall_embed(TARGET FILES...): makes the bytes of data files available through
# mitefall::base::embedded_files(), so that the program needs nothing beside its binary.
function(mitefall_embed target)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/embedded_${target}.cpp)
  string(REPLACE ";" "|" joined "${ARGN}")
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} -DROOT=${CMAKE_SOURCE_DIR} "-DFILES=${joined}"
            -DHEADER=base/embedded.h -DNAMESPACE=mitefall::base -DTYPE=EmbeddedFile -DFUNCTION=embedded_files
            -P ${CMAKE_SOURCE_DIR}/cmake/write_embedded.cmake
    DEPENDS ${ARGN} ${CMAKE_SOURCE_DIR}/cmake/write_embedded.cmake
    VERBATIM)
  target_sources(${target} PRIVATE ${output})
endfunction()
