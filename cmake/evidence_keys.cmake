# mitefall_evidence_keys(TARGET FILES...): makes evidence/known_keys.h, the keys of the evidence tables with their units as
# constants, so that a key that is not in the tables does not compile. With -P: writes OUTPUT from FILES ('|' between them).
function(mitefall_evidence_keys target)
  set(folder ${CMAKE_CURRENT_BINARY_DIR}/generated)
  set(output ${folder}/evidence/known_keys.h)
  string(REPLACE ";" "|" joined "${ARGN}")
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} "-DFILES=${joined}" -P ${CMAKE_SOURCE_DIR}/cmake/evidence_keys.cmake
    DEPENDS ${ARGN} ${CMAKE_SOURCE_DIR}/cmake/evidence_keys.cmake
    VERBATIM)
  target_sources(${target} PRIVATE ${output})
  target_include_directories(${target} PUBLIC ${folder})
endfunction()

if(CMAKE_SCRIPT_MODE_FILE AND OUTPUT)
  string(REPLACE "|" ";" files "${FILES}")
  set(rows "")
  foreach(file IN LISTS files)
    file(STRINGS ${file} lines REGEX "^(\\[parameter\\.[a-z0-9_A-Z]+\\]|unit = \"[^\"]*\")")
    foreach(line IN LISTS lines)
      if(line MATCHES "^\\[parameter\\.([a-z0-9_A-Z]+)\\]")
        set(key ${CMAKE_MATCH_1})
      elseif(line MATCHES "^unit = \"([^\"]*)\"")
        string(APPEND rows "    {\"${key}\", \"${CMAKE_MATCH_1}\"},\n")
      endif()
    endforeach()
  endforeach()
  set(text "#pragma once\n\n#include <string_view>\n\n// Made from data/evidence; not to be edited.\n")
  string(APPEND text "namespace mitefall::evidence {\n\nstruct KnownKey {\n    std::string_view key;\n    std::string_view unit;\n};\n\n")
  string(APPEND text "inline constexpr KnownKey known_keys[] = {\n${rows}};\n\n}  // namespace mitefall::evidence\n")
  file(WRITE ${OUTPUT} "${text}")
endif()
