#include "plan/reply.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace wildling::plan {
namespace {

Reply sample() {
  Reply reply;
  reply.name = "water";
  reply.answer = opening(say("weather.answer", {{"mm", 14.5}}), {{"mm", "climate/ball"}});
  reply.tables = {{"days",
                   say("weather.days"),
                   {{"day", say("field.day"), 0}, {"rain_mm", say("weather.rain"), 1}},
                   {{Cell{make_date(2026, 2, 28), ""}, Cell{std::nan(""), ""}},
                    {Cell{make_date(2026, 3, 1), ""}, Cell{12.25, "climate/rain/2026-03-01"}}}}};
  Curve curve{say("weather.rain"), Shape::bars, Ink::water, {1, 2}, {3, std::nan("")}, {}};
  reply.charts = {{"rain", say("weather.chart"), say("x"), say("y"), true, true, {curve}}};
  reply.workings.add(
      {"climate/ball", say("weather.ball"), 14.5, "mm", Origin::measured, "", "log", "", {}});
  return reply;
}

nlohmann::json read(const Reply& reply) {
  return nlohmann::json::parse(reply_text(reply));
}

TEST(ReplyText, SaysWhichNumberOfTheAnswerOpens) {
  EXPECT_EQ(read(sample())["answer"]["opens"]["mm"], "climate/ball");
}

TEST(ReplyText, WritesANumberThatIsNoneAsNull) {
  const auto json = read(sample());
  EXPECT_TRUE(json["tables"][0]["rows"][0][1]["value"].is_null());
  EXPECT_TRUE(json["charts"][0]["curves"][0]["y"][1].is_null());
}

TEST(ReplyText, KeepsDaysApartFromWords) {
  EXPECT_EQ(read(sample())["tables"][0]["rows"][1][0]["value"]["day"], "2026-03-01");
}

TEST(ReplyText, CarriesTheWorkings) {
  EXPECT_EQ(read(sample())["workings"][0]["origin"], "measured");
}

TEST(ReplyText, IsTheSameTwice) {
  EXPECT_EQ(reply_text(sample()), reply_text(sample()));
}

}  // namespace
}  // namespace wildling::plan
