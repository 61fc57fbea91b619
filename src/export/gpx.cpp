#include "export/gpx.hpp"

#include <fmt/format.h>

#include "base/files.hpp"
#include "layout/corners.hpp"

namespace wildling::exports {
namespace {

constexpr std::string_view kReplacement = "\xEF\xBF\xBD";

/// Bytes of the character that begins the text when it is well-formed UTF-8 that XML 1.0 may hold;
/// else 0.
std::size_t good_character(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
  const std::uint8_t lead = byte(0);
  if (lead < 0x80) return lead >= 0x20 || lead == '\t' || lead == '\n' || lead == '\r' ? 1 : 0;
  const std::size_t size = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : lead >= 0xc2 ? 2 : 0;
  if (size == 0 || lead > 0xf4 || text.size() < size) return 0;
  std::uint32_t code = lead & (0xffU >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) return 0;
    code = code << 6U | (byte(i) & 0x3fU);
  }
  const bool too_long = (size == 3 && code < 0x800) || (size == 4 && code < 0x10000);
  const bool no_character =
      (code >= 0xd800 && code <= 0xdfff) || code == 0xfffe || code == 0xffff || code > 0x10ffff;
  return too_long || no_character ? 0 : size;
}

void add_element(std::string& out, std::string_view name, const std::string& text) {
  if (!text.empty()) out += fmt::format("    <{}>{}</{}>\n", name, xml_text(text), name);
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t size = good_character(text);
    if (size == 0) {
      out += kReplacement;
      text.remove_prefix(1);
      continue;
    }
    switch (text.front()) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&apos;";
        break;
      default:
        out += text.substr(0, size);
    }
    text.remove_prefix(size);
  }
  return out;
}

std::string gpx_text(std::span<const Waypoint> waypoints, const std::string& title,
                     const std::string& made_at_utc) {
  std::string out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<gpx version=\"1.1\" creator=\"Wildling\" xmlns=\"http://www.topografix.com/GPX/1/1\" "
      "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
      "xsi:schemaLocation=\"http://www.topografix.com/GPX/1/1 "
      "http://www.topografix.com/GPX/1/1/gpx.xsd\">\n  <metadata>\n";
  add_element(out, "name", title);
  add_element(out, "time", made_at_utc);
  out += "  </metadata>\n";
  for (const Waypoint& point : waypoints) {
    out +=
        fmt::format("  <wpt lat=\"{:.7f}\" lon=\"{:.7f}\">\n", point.at.lat_deg, point.at.lon_deg);
    add_element(out, "name", point.name);
    add_element(out, "desc", point.description);
    add_element(out, "type", point.type);
    out += "  </wpt>\n";
  }
  return out + "</gpx>\n";
}

namespace {

void add_pegs(std::vector<Waypoint>& out, const LaidBlock& block, const Words& words) {
  const layout::Baseline& line = *block.baseline;
  const std::map<std::string, Argument> arguments = {
      {"block", block.code}, {"bearing", line.bearing_deg}, {"length", line.length_m}};
  out.push_back({.at = block.frame->to_lonlat(line.peg_a),
                 .name = block.code + "-A",
                 .description = words.text("export.gpx.peg_a", arguments),
                 .type = "peg"});
  out.push_back({.at = block.frame->to_lonlat(line.peg_b),
                 .name = block.code + "-B",
                 .description = words.text("export.gpx.peg_b", arguments),
                 .type = "peg"});
}

void add_corners(std::vector<Waypoint>& out, const LaidBlock& block, double tolerance_m,
                 const Words& words) {
  const ground::Frame frame(ground::middle(block.shape));
  std::int64_t number = 0;
  for (const auto& ring : layout::corners(ground::to_xy(block.shape, frame), tolerance_m)) {
    for (const ground::Xy& corner : ring) {
      ++number;
      std::string text =
          words.text("export.gpx.corner", {{"block", block.code}, {"number", number}});
      if (!block.gate.open) text += " " + draft_mark(words);
      out.push_back({.at = frame.to_lonlat(corner),
                     .name = fmt::format("{}-{}", block.code, number),
                     .description = text,
                     .type = "corner"});
    }
  }
}

}  // namespace

std::vector<Waypoint> pegs_and_corners(std::span<const LaidBlock> blocks, double corner_tolerance_m,
                                       const Words& words) {
  std::vector<Waypoint> out;
  for (const LaidBlock& block : blocks) {
    if (block.gate.open && block.baseline != nullptr && block.frame != nullptr)
      add_pegs(out, block, words);
    add_corners(out, block, corner_tolerance_m, words);
  }
  return out;
}

std::vector<Message> write_gpx(const std::string& path, std::span<const LaidBlock> blocks,
                               double corner_tolerance_m, const std::string& title,
                               const std::string& made_at_utc, const Words& words, bool overwrite) {
  const std::vector<Waypoint> points = pegs_and_corners(blocks, corner_tolerance_m, words);
  write_file(path, gpx_text(points, title, made_at_utc), overwrite);
  std::int64_t pegs = 0;
  std::string closed;
  for (const Waypoint& point : points) pegs += point.type == "peg" ? 1 : 0;
  for (const LaidBlock& block : blocks) {
    if (!block.gate.open) closed += (closed.empty() ? "" : ", ") + block.code;
  }
  std::vector<Message> note = {
      say("export.note.gpx",
          {{"pegs", pegs}, {"corners", static_cast<std::int64_t>(points.size()) - pegs}})};
  if (!closed.empty()) note.push_back(say("export.note.closed_without_pegs", {{"blocks", closed}}));
  return note;
}

}  // namespace wildling::exports
