#pragma once
// Invented sheets for the tests: no real place, people or weather.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include "base/files.hpp"
#include "base/words.hpp"
#include "plan/sheets.hpp"

namespace wildling::paper_sample {

inline Message free_text(const std::string& text) {
  return say("paper.note", {{"text", text}});
}

/// English or Indonesian words of the sample's own sentences.
inline Message both(Language language, const std::string& english, const std::string& indonesian) {
  return free_text(language == Language::en ? english : indonesian);
}

inline plan::SheetStamp stamp() {
  plan::SheetStamp stamp;
  stamp.programme = "Sungai Kelabu";
  stamp.plan_number = 7;
  stamp.made_on = make_date(2026, 11, 25);
  stamp.invented_figures = true;
  return stamp;
}

inline plan::SheetShape slope_shape(double scale = 1.0) {
  const std::vector<plan::SheetXy> ring{{0, 12},    {70, -4},  {151, 9}, {176, 84},
                                        {118, 121}, {22, 108}, {-8, 60}};
  plan::SheetPart part;
  for (const plan::SheetXy& at : ring) part.outer.push_back({at.x_m * scale, at.y_m * scale});
  return {part};
}

inline std::vector<plan::SheetSpecies> species(std::size_t count) {
  const std::vector<std::array<const char*, 2>> names{
      {"Macaranga gigantea", "mahang"},   {"Trema orientalis", "mengkirai"},
      {"Alstonia scholaris", "pulai"},    {"Shorea leprosula", "meranti tembaga"},
      {"Ficus variegata", "ara"},         {"Dyera costulata", "jelutung"},
      {"Durio zibethinus", "durian"},     {"Parashorea tomentella", "urat mata"},
      {"Nephelium lappaceum", "rambutan"}};
  const std::vector<std::string> codes = plan::species_codes(count);
  std::vector<plan::SheetSpecies> list;
  for (std::size_t i = 0; i < count; ++i) {
    plan::SheetSpecies one;
    one.code = codes[i];
    one.scientific_name = i < names.size() ? names[i][0] : "Syzygium sp. " + std::to_string(i);
    one.local_name = i < names.size() ? names[i][1] : "ubah " + std::to_string(i);
    one.group = static_cast<plan::SheetGroup>(i % 3);
    list.push_back(one);
  }
  return list;
}

/// Upright rows through a convex ring, `spacing` apart; species by a fixed rule.
inline std::vector<plan::SheetRow> rows_in(const plan::SheetLine& ring, double spacing,
                                           std::size_t kinds) {
  std::vector<plan::SheetRow> rows;
  for (double x = -5; x < 400 * spacing && rows.size() < 400; x += spacing) {
    double low = 1e9, high = -1e9;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const plan::SheetXy a = ring[i], b = ring[(i + 1) % ring.size()];
      if ((a.x_m - x) * (b.x_m - x) > 0 || a.x_m == b.x_m) continue;
      const double y = a.y_m + (b.y_m - a.y_m) * (x - a.x_m) / (b.x_m - a.x_m);
      low = std::min(low, y);
      high = std::max(high, y);
    }
    low += 3;
    high -= 3;
    if (high < low) continue;
    plan::SheetRow row;
    row.number = static_cast<int>(rows.size()) + 1;
    row.tape_m = x + 8;
    row.first_plant_m = low + 6;
    row.count = static_cast<int>((high - low) / spacing) + 1;
    row.start = {x, low};
    row.end = {x, low + (row.count - 1) * spacing};
    row.species_counts.assign(kinds, 0);
    for (int i = 0; i < row.count && kinds > 0; ++i) {
      const std::size_t index = (static_cast<std::size_t>(i * 7 + row.number * 3)) % kinds;
      row.species_order.push_back(static_cast<std::uint8_t>(index));
      ++row.species_counts[index];
    }
    rows.push_back(row);
  }
  return rows;
}

inline plan::GateTicks open_gates(Language language) {
  plan::GateTicks gates;
  const std::string who = language == Language::en ? "village meeting" : "rapat kampung";
  gates.consent = {plan::SheetAnswer::yes, false, who, make_date(2026, 8, 14), {}};
  gates.fire_and_cattle = {plan::SheetAnswer::yes, false, "Ibu Rini", make_date(2026, 9, 2), {}};
  gates.natural_trees_counted = {plan::SheetAnswer::yes, false, "Pak Dani", make_date(2026, 9, 20),
                                 140.0};
  gates.drained_peat = {plan::SheetAnswer::no, false, "Pak Dani", make_date(2026, 9, 20), {}};
  gates.open = true;
  return gates;
}

inline plan::CrewSheet planting_block(Language language, std::size_t kinds = 9,
                                      double scale = 1.0) {
  plan::CrewSheet sheet;
  sheet.job = plan::SheetJob::plant;
  sheet.block_code = "B3";
  sheet.site = "Bukit Damar";
  sheet.ground_type = language == Language::en ? "fern on the upper part" : "pakis di bagian atas";
  sheet.area_ha = 1.84;
  sheet.area_low_ha = 1.71;
  sheet.area_high_ha = 1.97;
  sheet.slope_deg = 14;
  sheet.window.first = make_date(2026, 12, 1);
  sheet.window.last = make_date(2027, 1, 20);
  sheet.window.good_years = 9;
  sheet.window.of_years = 11;
  sheet.gates = open_gates(language);
  sheet.hazards = {plan::Hazard::heat,   plan::Hazard::lightning,     plan::Hazard::tools,
                   plan::Hazard::snakes, plan::Hazard::large_animals, plan::Hazard::water,
                   plan::Hazard::slope,  plan::Hazard::lone_work};
  sheet.cautions = {both(language, "The stream on the south side rises within an hour of rain.",
                         "Anak sungai di sisi selatan naik dalam satu jam sesudah hujan.")};
  sheet.crew_people = 12;
  sheet.person_days = 34.5;
  sheet.shape = slope_shape(scale);
  sheet.baseline.a = {"A", {-8, -6}, {113.45678, -1.23456}};
  sheet.baseline.b = {"B", {176 * scale, -6}, {113.45843, -1.23456}};
  sheet.baseline.bearing_deg = 90;
  sheet.baseline.magnetic_bearing_deg = 89.4;
  sheet.baseline.length_m = 176 * scale + 8;
  sheet.baseline.row_bearing_deg = 0;
  sheet.baseline.row_magnetic_bearing_deg = 359.4;
  sheet.baseline.spacing_m = 2.7;
  sheet.baseline.row_spacing_m = 2.7;
  sheet.baseline.setback_edge_m = 3;
  sheet.baseline.setback_water_m = 10;
  sheet.baseline.position_error_m = 5;
  sheet.water_lines = {{{-20, -14}, {40, -18}, {90, -9}, {190, 2}}};
  sheet.species = species(kinds);
  sheet.rows = rows_in(sheet.shape[0].outer, 2.7, kinds);
  for (const plan::SheetRow& row : sheet.rows)
    for (std::size_t i = 0; i < kinds; ++i) sheet.species[i].to_plant += row.species_counts[i];
  for (plan::SheetSpecies& one : sheet.species) one.to_load = one.to_plant + one.to_plant / 20 + 1;
  return sheet;
}

inline plan::CrewSheet closed_block(Language language) {
  plan::CrewSheet sheet = planting_block(language);
  sheet.block_code = "K1";
  sheet.gates.consent = {};
  sheet.gates.fire_and_cattle = {
      plan::SheetAnswer::no, true, "Ibu Rini", make_date(2026, 9, 2), {}};
  sheet.gates.natural_trees_counted = {};
  sheet.gates.open = false;
  sheet.gates.reasons = {
      both(language, "Nobody has asked the owners of the old garden.",
           "Pemilik kebun lama belum ditanya."),
      both(language, "Cattle graze here every evening.", "Sapi merumput di sini setiap petang.")};
  return sheet;
}

inline plan::CrewSheets crew(Language language) {
  return {stamp(), {planting_block(language), closed_block(language)}};
}

inline plan::RainSheet rain(Language) {
  plan::RainSheet sheet;
  sheet.stamp = stamp();
  sheet.stamp.plan_number = 0;
  sheet.station = "Pondok Kelabu";
  sheet.lonlat = plan::SheetLonLat{113.45111, -1.24002};
  sheet.elevation_m = 34;
  sheet.year = 2027;
  sheet.month = 3;
  return sheet;
}

inline plan::MapBlock map_block(const std::string& code, double east, double north,
                                std::size_t kinds = 9) {
  plan::MapBlock block;
  block.code = code;
  block.shape = slope_shape();
  for (plan::SheetXy& at : block.shape[0].outer) {
    at.x_m += east;
    at.y_m += north;
  }
  block.area_ha = 1.84;
  for (plan::SheetRow& row : rows_in(slope_shape()[0].outer, 2.7, kinds)) {
    block.rows.push_back({{{row.start.x_m + east, row.start.y_m + north},
                           {row.end.x_m + east, row.end.y_m + north}}});
    for (int i = 0; i < row.count; ++i) {
      block.seedling_x_m.push_back(static_cast<float>(row.start.x_m + east));
      block.seedling_y_m.push_back(static_cast<float>(row.start.y_m + 2.7 * i + north));
      block.groups.push_back(
          static_cast<plan::SheetGroup>(row.species_order[static_cast<std::size_t>(i)] % 3));
      ++block.seedlings;
    }
  }
  return block;
}

inline plan::MapPicture map(Language) {
  plan::MapPicture picture;
  picture.stamp = stamp();
  picture.title = "Bukit Damar";
  picture.blocks = {map_block("B1", 0, 0), map_block("B2", 190, 10), map_block("B3", 30, 140),
                    map_block("K1", 220, 150)};
  picture.blocks[3].draft = true;
  picture.water_lines = {{{-30, -20}, {80, -25}, {180, -10}, {400, 0}}};
  picture.firebreaks = {{{-20, 290}, {150, 280}, {420, 285}}};
  picture.pegs = {{"A", {-8, -6}, {}}, {"B", {176, -6}, {}}};
  picture.marks = {{plan::MapSign::nursery_bed, {205, 275}, ""},
                   {plan::MapSign::plot, {60, 60}, ""},
                   {plan::MapSign::perch, {240, 70}, ""},
                   {plan::MapSign::depot, {190, 120}, ""}};
  picture.origin = {113.45678, -1.23456};
  return picture;
}

inline plan::SummaryPage summary(Language language) {
  const auto t = [language](const char* english, const char* indonesian) {
    return both(language, english, indonesian);
  };
  plan::SummaryPage page;
  page.stamp = stamp();
  page.addressee = language == Language::en ? "the programme's council" : "dewan program";
  page.answer = t("Plant three of the four blocks between 1 December and 20 January.",
                  "Tanam tiga dari empat petak antara 1 Desember dan 20 Januari.");
  page.why.sentences = {
      t("In 9 of 11 years a seedling planted then met no killing dry spell in its first 60 days.",
        "Dalam 9 dari 11 tahun, bibit yang ditanam waktu itu tidak mengalami kemarau mematikan "
        "selama 60 hari pertama."),
      t("Natural trees stand at 140 per hectare (counted 20 September), too few to close the "
        "canopy alone.",
        "Pohon alami ada 140 per hektare (dihitung 20 September), terlalu sedikit untuk menutup "
        "tajuk sendiri.")};
  page.why.notes = {{t("Rain log of the field office, 2015 to 2026.",
                       "Catatan hujan kantor lapangan, 2015 sampai 2026."),
                     Origin::measured},
                    {t("Root ball holds 22 mm.", "Bola akar menyimpan 22 mm."), Origin::assumed}};
  page.what.sentences = {
      t("Nine species, 3 in 10 of them pioneers; no species above 15 in 100.",
        "Sembilan jenis, 3 dari 10 perintis; tidak ada jenis di atas 15 dari 100.")};
  page.what.notes = {
      {t("Names from the elders' list.", "Nama dari daftar para tetua."), Origin::told}};
  page.where.sentences = {
      t("Blocks B1, B2 and B3 on the fern slope, 5.52 ha in all (5.1 to 5.9).",
        "Petak B1, B2, dan B3 di lereng pakis, seluruhnya 5,52 ha (5,1 sampai 5,9).")};
  page.when.sentences = {
      t("Start with B3, the driest, so that it gets the longest wet period.",
        "Mulai dari B3, yang paling kering, agar mendapat masa basah terpanjang.")};
  page.how_many.sentences = {
      t("7,230 seedlings are planted so that 4,600 live at year three (4,100 to 5,000).",
        "7.230 bibit ditanam agar 4.600 hidup pada tahun ketiga (4.100 sampai 5.000).")};
  page.how_many.notes = {
      {t("Survival in the open, book value.", "Daya hidup di tempat terbuka, angka pustaka."),
       Origin::documented}};
  page.who.sentences = {
      t("Twelve people for nine days of planting, with two rain days taken out.",
        "Dua belas orang selama sembilan hari tanam, dua hari hujan sudah dikurangi.")};
  page.how_much.sentences = {
      t("61 million rupiah to the end of year three; a third of it is weeding.",
        "61 juta rupiah sampai akhir tahun ketiga; sepertiganya untuk pembersihan.")};
  page.on_hold = {
      {"K1",
       {t("nobody has asked the owners of the old garden.", "pemilik kebun lama belum ditanya.")}}};
  page.assumed = {
      t("Two in ten die in the first dry season.", "Dua dari sepuluh mati pada kemarau pertama."),
      t("A day of work costs 150,000 rupiah.", "Satu hari kerja 150.000 rupiah.")};
  page.next_acts = {
      {make_date(2026, 11, 27), t("ask the owners of K1, with the village head present.",
                                  "tanyakan pemilik K1, disaksikan kepala kampung.")},
      {make_date(2026, 11, 28), t("dig the spade hole in B3; 20 cm must be moist.",
                                  "gali lubang periksa di B3; 20 cm harus lembap.")},
      {{}, t("order 400 more bags.", "pesan 400 polibag lagi.")}};
  page.sources = {
      t("Boundary walked on 12 August 2026; rain log of 4,018 days; species list of 9 lines.",
        "Batas ditelusuri 12 Agustus 2026; catatan hujan 4.018 hari; daftar 9 jenis.")};
  page.map = map(language);
  return page;
}

inline plan::TomorrowSheet tomorrow(Language language) {
  const plan::CrewSheet block = planting_block(language);
  plan::TomorrowSheet sheet;
  sheet.stamp = stamp();
  sheet.day = make_date(2026, 12, 2);
  sheet.crew_leader = "Pak Dani";
  sheet.people = 12;
  sheet.meeting_place =
      language == Language::en ? "depot by the old bridge" : "tempat bibit dekat jembatan lama";
  sheet.meeting_hour = "06:30";
  sheet.verdict = both(language, "Plant tomorrow: the soil is moist to 24 cm.",
                       "Besok tanam: tanah lembap sampai 24 cm.");
  plan::TomorrowTask task;
  task.block_code = "B3";
  task.gates = block.gates;
  task.rows.assign(block.rows.begin(), block.rows.begin() + 14);
  task.species = block.species;
  task.person_days = 6.5;
  sheet.tasks.push_back(task);
  plan::TomorrowTask closed = task;
  closed.block_code = "K1";
  closed.gates = closed_block(language).gates;
  sheet.tasks.push_back(closed);
  sheet.hazards = {plan::Hazard::heat, plan::Hazard::lightning, plan::Hazard::tools,
                   plan::Hazard::snakes, plan::Hazard::water};
  sheet.access = {both(language, "The lower ford is shut; walk by the ridge.",
                       "Penyeberangan bawah ditutup; lewat punggung bukit.")};
  sheet.bring = {both(language, "12 planting spades, 60 litres of water, 18 crates.",
                      "12 sekop tanam, 60 liter air, 18 peti.")};
  return sheet;
}

inline plan::FireCalendar fire(Language language) {
  const auto t = [language](const char* english, const char* indonesian) {
    return both(language, english, indonesian);
  };
  plan::FireCalendar calendar;
  calendar.stamp = stamp();
  calendar.station = "Pondok Kelabu";
  calendar.year = 2027;
  calendar.answer = t("Clear 2,140 m of firebreak before 20 June.",
                      "Bersihkan 2.140 m sekat bakar sebelum 20 Juni.");
  const std::array<double, 12> rain{312, 280, 301, 265, 210, 140, 96, 72, 104, 190, 276, 330};
  for (unsigned month = 1; month <= 12; ++month)
    calendar.months.push_back({month, rain[month - 1], 11, month >= 7 && month <= 9});
  calendar.breaks = {
      {"B1", 820, 12.0, 5.0, 20.0, make_date(2027, 6, 10), 18.5, {}},
      {"B3", 1320, 12.0, 5.0, 20.0, make_date(2027, 6, 20), 29.0, make_date(2027, 6, 2)}};
  calendar.patrol = {
      {t("not high", "tidak tinggi"),
       t("One walk a week along the south side.", "Sekali seminggu di sisi selatan.")},
      {t("high", "tinggi"), t("Two people, every afternoon.", "Dua orang, tiap sore.")},
      {t("very high", "sangat tinggi"),
       t("Two people from ten to six; nobody lights anything.",
         "Dua orang dari jam sepuluh sampai enam; tidak ada yang menyalakan api.")}};
  calendar.neighbours = {{"Ibu Sari", make_date(2027, 5, 3)}, {"Pak Lodan", {}}};
  calendar.after_fire = {
      t("Walk the edge and mark it the next morning.", "Telusuri dan tandai tepinya esok pagi."),
      t("Count what sprouts after 8 to 12 weeks; refill not before.",
        "Hitung yang bertunas sesudah 8 sampai 12 minggu; jangan menyulam sebelumnya.")};
  calendar.sources = {t("Rain log of 11 years, read at the office, 14 km away.",
                        "Catatan hujan 11 tahun, dibaca di kantor, 14 km dari sini.")};
  return calendar;
}

inline plan::PayList pay(Language) {
  plan::PayList list;
  list.stamp = stamp();
  list.crew_leader = "Pak Dani";
  list.blocks = {"B1", "B3"};
  list.first = make_date(2026, 11, 30);
  list.currency = "Rp";
  list.lines = {{"Sari", {8.0, 8.0, 7.5, 8.0, {}, 4.0, {}}, 35.5, 150000.0, 665625.0},
                {"Bujang bin Lodan", {8.0, {}, 8.0, 8.0, 8.0, 4.0, {}}, 36.0, 150000.0, 675000.0}};
  list.blank_lines = 10;
  list.hours_total = 71.5;
  list.pay_total = 1340625.0;
  list.women_days = 5;
  list.men_days = 5;
  return list;
}

inline plan::WaitingPage waiting(Language language) {
  const auto t = [language](const char* english, const char* indonesian) {
    return both(language, english, indonesian);
  };
  plan::WaitingPage page;
  page.stamp = stamp();
  page.day = make_date(2026, 12, 3);
  page.blocks = {"B1", "B3"};
  page.answer = t("We did not plant today.", "Hari ini kita tidak menanam.");
  page.why = {
      t("The planting pit holds 14 mm of the 22 mm a seedling needs for its first week.",
        "Lubang tanam menyimpan 14 mm dari 22 mm yang diperlukan bibit pada minggu pertama."),
      t("In 11 of 15 years like this one no rain came within five days.",
        "Dalam 11 dari 15 tahun seperti ini hujan tidak turun dalam lima hari.")};
  page.looked_at = {
      {t("Spade in B3: moist to 9 cm of 30.", "Sekop di B3: lembap sampai 9 cm dari 30."),
       Origin::measured},
      {t("Rain of the last 14 days: 21 mm.", "Hujan 14 hari terakhir: 21 mm."), Origin::measured},
      {t("The elders expect rain after the new moon.",
         "Para tetua menduga hujan sesudah bulan baru."),
       Origin::told}};
  page.safe_act = {t("Kept the 3,400 hardened seedlings shaded and watered.",
                     "3.400 bibit siap tanam tetap dinaungi dan disiram."),
                   t("The crew dug 410 pits.", "Regu menggali 410 lubang.")};
  page.settles = {t("One spade hole in each block, two people, one hour.",
                    "Satu lubang periksa di tiap petak, dua orang, satu jam.")};
  page.look_again = make_date(2026, 12, 5);
  return page;
}

// ---- looking at what came out -----------------------------------------------------------------

/// A folder of this run; WILDLING_KEEP=FOLDER keeps the files to be looked at.
inline std::string kept(const std::string& name, const std::string& bytes) {
  static const std::string folder = [] {
    if (const char* wanted = std::getenv("WILDLING_KEEP")) {
      std::filesystem::create_directories(wanted);
      return std::string(wanted);
    }
    std::string pattern =
        (std::filesystem::temp_directory_path() / "wildling_paper_XXXXXX").string();
    return std::string(mkdtemp(pattern.data()));
  }();
  const std::string path = folder + "/" + name;
  write_file(path, bytes);
  return path;
}

inline std::string output_of(const std::string& command) {
  FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return {};
  std::string said;
  char buffer[4096];
  while (const std::size_t got = fread(buffer, 1, sizeof buffer, pipe)) said.append(buffer, got);
  pclose(pipe);
  return said;
}

inline std::string pdf_text(const std::string& name, const std::string& bytes) {
  return output_of("pdftotext -layout '" + kept(name, bytes) + "' -");
}

inline int pdf_pages(const std::string& name, const std::string& bytes) {
  const std::string said = output_of("pdfinfo '" + kept(name, bytes) + "'");
  const std::size_t at = said.find("Pages:");
  return at == std::string::npos ? -1 : std::atoi(said.c_str() + at + 6);
}

}  // namespace wildling::paper_sample
