// What each address answers, without a socket.
#include "desk/routes.hpp"

#include <gtest/gtest.h>

#include "base/embedded.hpp"
#include "help.hpp"
#include "plan/message_json.hpp"

namespace wildling::desk {
namespace {

TEST(State, SaysWhatIsOpenAndThatNoPlanIsThere) {
  MemoryDesk page;
  const json state = page.get("/api/state");
  EXPECT_EQ(state.at("programme"), "Test land (invented)");
  EXPECT_EQ(state.at("file"), "test.gpkg");
  EXPECT_EQ(state.at("invented_figures"), true);
  EXPECT_EQ(state.at("writable"), true);
  EXPECT_EQ(state.at("today"), "2025-02-01");
  EXPECT_TRUE(state.at("plan").is_null());
  EXPECT_TRUE(state.at("job").is_null());
}

TEST(State, APlanIsFreshUntilAParameterChanges) {
  MemoryDesk page(true);
  EXPECT_EQ(page.get("/api/state").at("plan").at("stale"), false);
  const auto changed = page.ask(
      "PUT", "/api/parameter",
      R"({"key":"layout.spacing","value":3,"origin":"told","source":"an invented foreman"})", {},
      {{"if-match", "1"}});
  EXPECT_EQ(changed.status, 200) << *changed.body;
  EXPECT_EQ(page.get("/api/state").at("plan").at("stale"), true);
}

TEST(State, AChangeByAnotherRaisesTheDataVersion) {
  MemoryDesk page;
  const auto before = page.get("/api/state").at("data_version").get<std::int64_t>();
  plan::take_parameter(*page.store, "layout.spacing", 3.1, Origin::told, "x", plan::kTester);
  EXPECT_GT(page.get("/api/state").at("data_version").get<std::int64_t>(), before);
}

TEST(Words, BothLanguagesHaveTheSameKeys) {
  MemoryDesk page;
  const json en = page.get("/api/words/en");
  const json id = page.get("/api/words/id");
  ASSERT_GT(en.size(), 300U);
  EXPECT_EQ(en.size(), id.size());
  EXPECT_EQ(page.ask("GET", "/api/words/xx").status, 404);
}

TEST(Words, AreNotSentAgainToWhomHasThem) {
  MemoryDesk page;
  const auto first = page.ask("GET", "/api/words/en");
  const std::string tag = first.headers.find("ETag")->second;
  const auto second = page.ask("GET", "/api/words/en", "", {}, {{"if-none-match", tag}});
  EXPECT_EQ(second.status, 304);
  EXPECT_FALSE(second.body);
}

TEST(Plan, IsTheStoredTextByteForByte) {
  MemoryDesk page(true);
  EXPECT_EQ(*page.ask("GET", "/api/plan").body, plan::plan_text(*page.store));
  EXPECT_TRUE(page.get("/api/plan").contains("letter"));
}

TEST(Plan, IsNotFoundBeforeThereIsOne) {
  MemoryDesk page;
  const auto answer = page.ask("GET", "/api/plan");
  EXPECT_EQ(answer.status, 404);
  EXPECT_EQ(key_of(answer), "plan.no_plan");
}

TEST(Findings, NewestFileFirst) {
  MemoryDesk page;
  const json list = page.get("/api/findings");
  ASSERT_GE(list.size(), 3U);
  EXPECT_EQ(list.front().at("kind"), "species");
  EXPECT_TRUE(list.front().at("findings").is_array());
}

TEST(Workings, OpenOneNumberWithItsInputsAndUsers) {
  MemoryDesk page(true);
  const Workings all = plan::load_workings(*page.store);
  const auto computed =
      std::find_if(all.nodes().begin(), all.nodes().end(), [](const WorkingsNode& node) {
        return node.origin == Origin::computed && node.inputs.size() >= 2;
      });
  ASSERT_NE(computed, all.nodes().end());
  const json opened = page.get("/api/workings", {{"key", computed->key}});
  EXPECT_EQ(opened.at("node").at("key"), computed->key);
  EXPECT_EQ(opened.at("inputs").size(), computed->inputs.size());
  EXPECT_EQ(opened.at("formula").at("id"), computed->formula);
  const json input = page.get("/api/workings", {{"key", computed->inputs.front()}});
  bool names_user = false;
  for (const json& user : input.at("used_by")) names_user |= user.at("key") == computed->key;
  EXPECT_TRUE(names_user || input.at("used_by").size() == 20U);
}

TEST(Workings, AParameterComesWithItsLimitsAndVersion) {
  MemoryDesk page(true);
  const json opened = page.get("/api/workings", {{"key", "parameter/layout.spacing"}});
  EXPECT_EQ(opened.at("parameter").at("value"), 2.7);
  EXPECT_EQ(opened.at("parameter").at("row_version"), 1);
}

TEST(Workings, TellTheOriginsOfSeveralNumbersAtOnce) {
  MemoryDesk page(true);
  const json origins = page.get(
      "/api/origins", {{"key", "block/B1/area"}, {"key", "programme/area"}, {"key", "no/such"}});
  EXPECT_EQ(origins, json({{"block/B1/area", "measured"}, {"programme/area", "computed"}}));
}

TEST(Workings, AnUnknownNumberIsNotFound) {
  MemoryDesk page(true);
  EXPECT_EQ(page.ask("GET", "/api/workings", "", {{"key", "no/such"}}).status, 404);
  EXPECT_EQ(page.ask("GET", "/api/workings").status, 400);
}

TEST(Parameters, AllAreListedWithTheirOrigin) {
  MemoryDesk page;
  const json list = page.get("/api/parameters");
  EXPECT_EQ(list.size(), Parameters::shipped().all().size());
  for (const json& each : list) EXPECT_TRUE(parse_origin(each.at("origin").get<std::string>()));
}

TEST(Parameters, WhoSawAnOldVersionIsRefused) {
  MemoryDesk page;
  const std::string body = R"({"key":"layout.spacing","value":3,"source":"foreman"})";
  EXPECT_EQ(page.ask("PUT", "/api/parameter", body, {}, {{"if-match", "0"}}).status, 412);
  EXPECT_EQ(page.ask("PUT", "/api/parameter", body, {}, {{"if-match", "\"1\""}}).status, 200);
  const auto again = page.ask("PUT", "/api/parameter", body, {}, {{"if-match", "1"}});
  EXPECT_EQ(again.status, 412);
  EXPECT_EQ(key_of(again), "plan.parameter_changed");
}

TEST(Parameters, NeedAVersionAReasonAndAValueInsideTheirLimits) {
  MemoryDesk page;
  const auto put = [&](const std::string& body, const std::string& version) {
    return page.ask("PUT", "/api/parameter", body, {},
                    version.empty() ? std::map<std::string, std::string>{}
                                    : std::map<std::string, std::string>{{"if-match", version}});
  };
  EXPECT_EQ(key_of(put(R"({"key":"layout.spacing","value":3,"source":"a"})", "")), "desk.if_match");
  EXPECT_EQ(key_of(put(R"({"key":"layout.spacing","value":3,"source":"  "})", "1")),
            "desk.no_reason");
  EXPECT_EQ(put(R"({"key":"layout.spacing","value":-3,"source":"a"})", "1").status, 422);
  EXPECT_EQ(put(R"({"key":"no.such","value":3,"source":"a"})", "0").status, 422);
  EXPECT_EQ(key_of(put(R"({"key":"layout.spacing","value":"3","source":"a"})", "1")),
            "desk.not_a_number");
  EXPECT_EQ(
      key_of(put(R"({"key":"layout.spacing","value":3,"source":"a","origin":"chosen"})", "1")),
      "desk.no_origin");
}

TEST(Gates, AnAnswerIsKeptForASite) {
  MemoryDesk page;
  const auto answer = page.ask(
      "POST", "/api/answer", R"({"where":"Small field","consent":"no","who":"an invented chief"})");
  EXPECT_EQ(answer.status, 200) << *answer.body;
  EXPECT_EQ(json::parse(*answer.body).at("blocks"), 1);
}

TEST(Gates, TreesMayBeNotCounted) {
  MemoryDesk page;
  const auto answer =
      page.ask("POST", "/api/answer", R"({"natural_trees_per_ha":"not-counted","who":"x"})");
  EXPECT_EQ(answer.status, 200) << *answer.body;
}

TEST(Gates, SenselessAnswersAreRefusedByField) {
  MemoryDesk page;
  const auto where = [&](const std::string& body) {
    return json::parse(*page.ask("POST", "/api/answer", body).body).at("where");
  };
  EXPECT_EQ(where(R"({"consent":"maybe","who":"x"})"), "consent");
  EXPECT_EQ(where(R"({"consent":"yes"})"), "who");
  EXPECT_EQ(where(R"({"consent":"yes","who":" "})"), "who");
  EXPECT_EQ(where(R"({"consent":"yes","who":"x","day":"yesterday"})"), "day");
  EXPECT_EQ(where(R"({"consent":3,"who":"x"})"), "consent");
}

TEST(Files, ABoundaryThatIsSentBecomesASite) {
  MemoryDesk page;
  const std::string body =
      R"({"type":"Feature","properties":{"name":"New field","cover":"moss"},"geometry":{"type":"Polygon",
      "coordinates":[[[113.4,-0.83],[113.401,-0.83],[113.401,-0.829],[113.4,-0.829],[113.4,-0.83]]]}})";
  const auto answer = page.ask("POST", "/api/take", body,
                               {{"what", "boundary"}, {"name", "../../etc/new field.geojson"}});
  ASSERT_EQ(answer.status, 200) << *answer.body;
  EXPECT_EQ(key_of(answer), "plan.take.boundary");
  EXPECT_FALSE(json::parse(*answer.body).at("findings").empty());
  EXPECT_EQ(page.get("/api/findings").front().at("file"), "new field.geojson");
}

TEST(Files, NonsenseIsRefusedAndChangesNothing) {
  MemoryDesk page;
  const auto before = page.store->data_version();
  for (const char* what : {"boundary", "water", "weather", "species"}) {
    const auto answer =
        page.ask("POST", "/api/take", "\x01\x02 nonsense", {{"what", what}, {"name", "x.bin"}});
    EXPECT_EQ(answer.status, 422) << what << *answer.body;
  }
  EXPECT_EQ(page.ask("POST", "/api/take", "x", {{"what", "moon"}, {"name", "x"}}).status, 400);
  EXPECT_EQ(page.ask("POST", "/api/take", "x", {{"what", "water"}}).status, 400);
  EXPECT_EQ(page.store->data_version(), before);
}

TEST(Land, BlocksKnowWhatThePlanMeansForThem) {
  MemoryDesk page(true);
  const json land = page.get("/api/land");
  ASSERT_EQ(land.at("sites").at("features").size(), 2U);
  const json& block = land.at("blocks").at("features").front().at("properties");
  EXPECT_EQ(block.at("open"), true);
  EXPECT_GT(block.at("planted").get<int>(), 0);
  EXPECT_EQ(block.at("draft"), 0);
  const json& ring =
      land.at("blocks").at("features").front().at("geometry").at("coordinates")[0][0];
  EXPECT_EQ(ring.front(), ring.back());
}

TEST(Land, IsThereBeforeAnyPlan) {
  MemoryDesk page;
  const json land = page.get("/api/land");
  const json& block = land.at("blocks").at("features").front().at("properties");
  EXPECT_TRUE(block.at("planted").is_null());
  EXPECT_GT(block.at("area_ha").get<double>(), 0.5);
}

TEST(Places, AreOneBufferOfTheNewestPlan) {
  MemoryDesk page(true);
  const auto answer = page.ask("GET", "/api/places");
  EXPECT_EQ(answer.type, "application/octet-stream");
  EXPECT_EQ(answer.body->substr(0, 4), "WPLC");
  EXPECT_EQ(MemoryDesk().ask("GET", "/api/places").status, 422);
}

TEST(Hillshade, IsNotFoundWithoutAnElevationModel) {
  MemoryDesk page;
  EXPECT_EQ(page.ask("GET", "/api/hillshade").status, 404);
}

TEST(Sheets, AreNotFoundWhenNobodyDrawsThem) {
  MemoryDesk page(true);
  EXPECT_EQ(page.ask("GET", "/api/sheet", "", {{"kind", "moon"}}).status, 404);
}

TEST(Questions, AreListedAndAnUnknownOneIsRefused) {
  MemoryDesk page;
  EXPECT_TRUE(page.get("/api/questions").is_array());
  EXPECT_TRUE(page.get("/api/notes").is_array());
  EXPECT_EQ(page.ask("GET", "/api/reply", "", {{"name", "no-such"}}).status, 400);
  EXPECT_EQ(page.ask("POST", "/api/note", R"({"name":"no-such","entries":{}})").status, 400);
}

TEST(Questions, OneThatCannotBeAnsweredSaysWhyInItsAnswer) {
  MemoryDesk page;
  const auto answer = page.ask("GET", "/api/reply", "", {{"name", "today"}, {"block", "Moon"}});
  ASSERT_EQ(answer.status, 200) << *answer.body;
  const json reply = json::parse(*answer.body);
  EXPECT_EQ(reply.at("name"), "today");
  EXPECT_EQ(reply.at("answer").at("key"), "plan.no_such_block");
  EXPECT_TRUE(reply.at("tables").empty());
  EXPECT_TRUE(reply.at("workings").empty());
}

TEST(Questions, ASenselessFieldIsRefused) {
  MemoryDesk page;
  EXPECT_EQ(page.ask("GET", "/api/reply", "", {{"name", "due"}, {"moon", "full"}}).status, 400);
}

TEST(Bodies, BrokenJsonSaysWhereItBreaks) {
  MemoryDesk page;
  const auto answer = page.ask("POST", "/api/jobs", R"({"kind": )");
  EXPECT_EQ(answer.status, 400);
  EXPECT_EQ(key_of(answer), "desk.not_json");
  EXPECT_EQ(key_of(page.ask("POST", "/api/jobs", "[1]")), "desk.not_object");
  EXPECT_EQ(key_of(page.ask("POST", "/api/jobs", "\"\xff\"")), "desk.not_json");
}

TEST(Bodies, DeepNestingEndsAsASentence) {
  MemoryDesk page;
  const auto answer =
      page.ask("POST", "/api/answer", R"({"who":"x","consent":)" + std::string(200000, '[') + "}");
  EXPECT_EQ(answer.status, 400);
}

TEST(Addresses, WhatIsNotThereIsNotFound) {
  MemoryDesk page;
  for (const char* path : {"/api/none", "/api/state/more", "/../etc/passwd", "/page/../words/x",
                           "/assets/..%2f..%2fetc/passwd", "/words/base.en.json", "//", "x"}) {
    EXPECT_EQ(page.ask("GET", path).status, 404) << path;
  }
  EXPECT_EQ(page.ask("POST", "/api/state", "{}").status, 405);
  EXPECT_EQ(page.ask("POST", "/", "{}").status, 405);
}

TEST(StaticFiles, EveryFileOfThePageIsServedWithItsType) {
  MemoryDesk page;
  EXPECT_EQ(page.ask("GET", "/").status, 200);
  EXPECT_EQ(page.ask("GET", "/").type, "text/html; charset=utf-8");
  for (const std::string& name : embedded_names("page/")) {
    const auto answer = page.ask("GET", name.substr(4));
    EXPECT_EQ(answer.status, 200) << name;
    EXPECT_EQ(answer.headers.count("Content-Encoding"), 1U) << name;
    EXPECT_NE(answer.type, "application/octet-stream") << name;
  }
}

TEST(Errors, EachKindHasItsStatusAndItsSentence) {
  const Words words(Language::en);
  for (const auto& [kind, status] : std::map<ErrorKind, int>{{ErrorKind::usage, 400},
                                                             {ErrorKind::input, 422},
                                                             {ErrorKind::infeasible, 409},
                                                             {ErrorKind::conflict, 412},
                                                             {ErrorKind::io, 500},
                                                             {ErrorKind::internal, 500}}) {
    const auto answer = problem_answer(Error(kind, "here", say("plan.no_plan")));
    EXPECT_EQ(answer.status, status);
    const json body = json::parse(*answer.body);
    EXPECT_EQ(body.at("where"), "here");
    EXPECT_NE(words.text(body.at("message").get<Message>()), "[plan.no_plan]");
  }
}

}  // namespace
}  // namespace wildling::desk
