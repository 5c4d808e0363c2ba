# mitefall_front_end(TARGET): builds ui/ with the packages of its lock file and makes an object library of the result, so
# that the program needs nothing beside its binary. Only what is linked into a program waits for it, no layer: the pages
# and the layers are made side by side. Node and npm come from scripts/install.sh.
function(mitefall_front_end target)
  set(ui ${CMAKE_SOURCE_DIR}/ui)
  set(output ${CMAKE_CURRENT_BINARY_DIR}/front_end.cpp)
  set(dist ${CMAKE_CURRENT_BINARY_DIR}/front_end)
  find_program(NPM npm REQUIRED)
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS ${ui}/src/*)
  file(GLOB settings CONFIGURE_DEPENDS ${ui}/*.json ${ui}/*.ts ${ui}/*.js ${ui}/index.html ${ui}/public/*)
  file(GLOB schemas CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/docs/schemas/*.json)
  list(FILTER sources EXCLUDE REGEX "/contract/|\\.test\\.ts$|\\.md$")
  list(APPEND sources ${ui}/src/contract/answers.ts ${ui}/src/contract/sentence.ts ${ui}/scripts/types.mjs)
  # The packages stand in ui/node_modules, whatever the build directory; they change with the lock file only.
  set(installed ${ui}/node_modules/.package-lock.json)
  add_custom_command(
    OUTPUT ${installed}
    COMMAND ${NPM} ci --no-audit --no-fund --loglevel=error
    COMMAND ${CMAKE_COMMAND} -E touch ${installed}
    WORKING_DIRECTORY ${ui}
    DEPENDS ${ui}/package.json ${ui}/package-lock.json
    VERBATIM)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${NPM} run build --silent -- --outDir ${dist} --emptyOutDir --logLevel warn
    COMMAND ${CMAKE_COMMAND} -DOUTPUT=${output} -DROOT=${dist} -DPREFIX=/ -DHEADER=web/assets.h
            -DNAMESPACE=mitefall::web -DTYPE=Asset -DFUNCTION=assets -P ${CMAKE_SOURCE_DIR}/cmake/write_embedded.cmake
    WORKING_DIRECTORY ${ui}
    DEPENDS ${installed} ${sources} ${settings} ${schemas} ${CMAKE_SOURCE_DIR}/cmake/write_embedded.cmake
    VERBATIM)
  add_library(${target} OBJECT ${output})
  target_link_libraries(${target} PRIVATE mitefall_options)
endfunction()
