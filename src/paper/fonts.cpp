#include "paper/fonts.hpp"

#include <string>
#include <string_view>

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/embedded.hpp"
#include "base/error.hpp"

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
// Fontconfig keeps its values behind offsets, which the leak check cannot follow.
extern "C" const char* __lsan_default_suppressions();

extern "C" const char* __lsan_default_suppressions() {
  return "leak:libfontconfig\n";
}
#endif
#endif

namespace wildling::paper {
namespace {

[[noreturn]] void fail(const std::string& name) {
  throw Error(ErrorKind::io, name, say("paper.fonts_missing"));
}

// The descriptor stays open for the life of the process: Cairo opens the file again when it needs
// it.
std::string file_in_memory(const std::string& name, std::string_view bytes) {
  const int descriptor = memfd_create("font", MFD_CLOEXEC);
  if (descriptor < 0) fail(name);
  while (!bytes.empty()) {
    const ssize_t written = write(descriptor, bytes.data(), bytes.size());
    if (written <= 0) fail(name);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return "/proc/self/fd/" + std::to_string(descriptor);
}

PangoFontMap* load() {
  FcConfig* config = FcConfigCreate();
  for (const std::string& name : embedded_names("fonts/")) {
    if (!std::string_view(name).ends_with(".ttf")) continue;
    const std::string path = file_in_memory(name, *embedded_file(name));
    const auto* bytes = reinterpret_cast<const FcChar8*>(path.c_str());
    if (FcConfigAppFontAddFile(config, bytes) == FcFalse) fail(name);
  }
  PangoFontMap* map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
  if (map == nullptr) fail("fonts");
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), config);
  FcConfigDestroy(config);  // the map holds its own reference
  return map;
}

}  // namespace

_PangoFontMap* shipped_font_map() {
  static PangoFontMap* map = load();
  return map;
}

std::mutex& drawing_mutex() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace wildling::paper
