# The page in a browser: a stage of its own, and the files it shows, which node puts together and the program holds.
if(NOT CROWNWRIGHT_PAGE)
  return()
endif()

pkg_check_modules(HTTPLIB REQUIRED IMPORTED_TARGET cpp-httplib)
crownwright_stage(page USES report making simulation milling press printing parts drawings fit pattern files proof mesh solid meridian order workshop measurements base
  LIBRARIES nlohmann_json::nlohmann_json PkgConfig::HTTPLIB Threads::Threads)
target_compile_definitions(cw_page PRIVATE CROWNWRIGHT_VERSION="${PROJECT_VERSION}")
target_link_libraries(cw_cli PUBLIC cw_page)
target_compile_definitions(cw_cli PRIVATE CROWNWRIGHT_HAS_PAGE)

find_program(CROWNWRIGHT_NODE NAMES node nodejs)
find_program(CROWNWRIGHT_NPM npm)
if(NOT CROWNWRIGHT_NODE OR NOT CROWNWRIGHT_NPM)
  message(FATAL_ERROR "The page is built with node and npm (Debian: nodejs and npm). -DCROWNWRIGHT_PAGE=OFF builds without it.")
endif()

# Everything happens in the build folder: nothing is written into the sources.
set(web_from ${CMAKE_CURRENT_SOURCE_DIR}/page/web)
set(web_work ${CMAKE_BINARY_DIR}/page_web)
set(web_assets ${web_work}/assets.cpp)
file(GLOB_RECURSE web_sources CONFIGURE_DEPENDS ${web_from}/*)
list(FILTER web_sources EXCLUDE REGEX "/(node_modules|dist)/")
add_custom_command(
  OUTPUT ${web_work}/installed
  DEPENDS ${web_from}/package.json ${web_from}/package-lock.json
  COMMAND ${CMAKE_COMMAND} -E make_directory ${web_work}
  COMMAND ${CMAKE_COMMAND} -E copy ${web_from}/package.json ${web_from}/package-lock.json ${web_work}
  COMMAND ${CMAKE_COMMAND} -E chdir ${web_work} ${CROWNWRIGHT_NPM} ci --ignore-scripts --no-audit --no-fund --silent
  COMMAND ${CMAKE_COMMAND} -E touch ${web_work}/installed
  COMMENT "Fetching what the page is built with")
add_custom_command(
  OUTPUT ${web_assets}
  DEPENDS ${web_sources} ${web_work}/installed ${CMAKE_CURRENT_SOURCE_DIR}/page/embed.cmake
  COMMAND ${CMAKE_COMMAND} -E copy_directory ${web_from} ${web_work}
  COMMAND ${CMAKE_COMMAND} -E chdir ${web_work} ${CROWNWRIGHT_NODE} build.mjs ${web_work}/dist
  COMMAND ${CMAKE_COMMAND} -DFROM=${web_work}/dist -DTO=${web_assets} -P ${CMAKE_CURRENT_SOURCE_DIR}/page/embed.cmake
  COMMENT "Putting the page together")
target_sources(cw_page PRIVATE ${web_assets})
set_source_files_properties(${web_assets} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
