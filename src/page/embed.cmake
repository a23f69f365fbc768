# Packs the files of the page and writes them as C++: cmake -DFROM=folder -DTO=assets.cpp -P embed.cmake
# The same files give the same bytes: gzip without name and date.
set(types_html "text/html; charset=utf-8")
set(types_js "text/javascript; charset=utf-8")
set(types_css "text/css; charset=utf-8")
set(types_svg "image/svg+xml")
set(types_txt "text/plain; charset=utf-8")

set(arrays "")
set(entries "")
foreach(name index.html app.js app.css favicon.svg licences.txt)
  execute_process(COMMAND gzip -9nc ${FROM}/${name} OUTPUT_FILE ${TO}.gz RESULT_VARIABLE failed)
  if(failed)
    message(FATAL_ERROR "${FROM}/${name} cannot be packed")
  endif()
  file(READ ${TO}.gz bytes HEX)
  file(SIZE ${TO}.gz size)
  string(REGEX REPLACE "(..)" "\\\\x\\1" bytes "${bytes}")
  # Lines of 64 bytes: compilers have a longest line.
  string(REGEX REPLACE "((\\\\x..)(\\\\x..)?(\\\\x..)?(\\\\x..)?(\\\\x..)?(\\\\x..)?(\\\\x..)?(\\\\x..)?)" "\"\\1\"\n" bytes "${bytes}")
  string(MAKE_C_IDENTIFIER "${name}" id)
  get_filename_component(ending "${name}" LAST_EXT)
  string(SUBSTRING "${ending}" 1 -1 ending)
  string(REPLACE "index.html" "" path "/${name}")
  string(APPEND arrays "constexpr char ${id}_bytes[] =\n${bytes};\n")
  string(APPEND entries "    {\"${path}\", \"${types_${ending}}\", {${id}_bytes, ${size}}},\n")
endforeach()
file(REMOVE ${TO}.gz)

file(WRITE ${TO}
"// Made by src/page/embed.cmake.
#include \"page/assets.h\"

namespace crownwright::page {
namespace {

${arrays}
constexpr Asset embedded[] = {
${entries}};

}  // namespace

std::span<const Asset> assets() { return embedded; }

}  // namespace crownwright::page
")
