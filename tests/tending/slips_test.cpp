#include "tending/slips.hpp"

#include <gtest/gtest.h>

namespace wildling::tending {
namespace {

const Date kDay = make_date(2026, 11, 12);

const std::vector<Dispatch> kDispatches = {{"B1", "Shorea", kDay, 100, "note 1"},
                                           {"B1", "Macaranga", kDay, 50, "note 1"},
                                           {"B2", "Shorea", kDay, 10, "note 2"}};

std::map<std::string, SlipBlock> blocks() {
  std::map<std::string, SlipBlock> all;
  all["B1"] = {{true, kDay}, {{1, 80}, {2, 80}}};
  all["B2"] = {{false, {}}, {}};
  return all;
}

Slip good_slip() {
  Slip slip;
  slip.number = "1-B1-1";
  slip.block = "B1";
  slip.day = kDay;
  slip.hours = 7;
  slip.people = 6;
  slip.lines = {{1, "Shorea", 60}, {1, "Macaranga", 20}, {2, "Shorea", 36}, {2, "Macaranga", 28}};
  slip.dead = {{"Shorea", 3}};
  slip.returned = {{"Shorea", 1}, {"Macaranga", 2}};
  return slip;
}

std::string fault_of(const Slip& slip) {
  const Ledger ledger = settle(kDispatches, std::vector{slip}, blocks());
  return ledger.set_aside.empty() ? "" : ledger.findings.at(0).message.key;
}

TEST(Settle, ClosesTheLedgerWhenEverySeedlingIsAccountedFor) {
  const std::vector<Dispatch> only_b1(kDispatches.begin(), kDispatches.begin() + 2);
  const Ledger ledger = settle(only_b1, std::vector{good_slip()}, blocks());
  EXPECT_TRUE(ledger.closed);
  EXPECT_TRUE(ledger.findings.empty());
  EXPECT_EQ(ledger.accounts.at("B1").at("Shorea").planted, 96);
  EXPECT_EQ(ledger.planted_in_row.at("B1").at(1), 80);
}

TEST(Settle, NamesSpeciesAndNumberThatIsOpen) {
  Slip slip = good_slip();
  slip.returned = {};
  const Ledger ledger = settle(std::vector<Dispatch>(kDispatches.begin(), kDispatches.begin() + 2),
                               std::vector{slip}, blocks());
  EXPECT_FALSE(ledger.closed);
  ASSERT_EQ(ledger.findings.size(), 2U);
  EXPECT_EQ(std::get<std::int64_t>(ledger.findings[1].message.arguments.at("open")), 1);
}

TEST(Settle, KeepsASlipAsideThatPlantedMoreThanWasSent) {
  Slip slip = good_slip();
  slip.dead["Shorea"] = 4;
  EXPECT_EQ(fault_of(slip), "tending.slip.more_than_dispatched");
}

TEST(Settle, DoesNotCountADispatchOfALaterDay) {
  Slip slip = good_slip();
  slip.day = kDay - std::chrono::days(1);
  EXPECT_EQ(fault_of(slip), "tending.slip.more_than_dispatched");
}

TEST(Settle, KeepsASlipAsideOfABlockWithoutConsent) {
  Slip slip = good_slip();
  slip.block = "B2";
  EXPECT_EQ(fault_of(slip), "tending.slip.no_consent");
}

TEST(Settle, KeepsASlipAsideOfAnUnknownBlock) {
  Slip slip = good_slip();
  slip.block = "B7";
  EXPECT_EQ(fault_of(slip), "tending.slip.block_unknown");
}

TEST(Settle, KeepsASlipAsideWithMoreThan24Hours) {
  Slip slip = good_slip();
  slip.hours = 24.5;
  EXPECT_EQ(fault_of(slip), "tending.slip.hours");
}

TEST(Settle, KeepsARoundAsideThatWasLoggedBeforePlanting) {
  Slip slip;
  slip.number = "round";
  slip.block = "B1";
  slip.day = kDay - std::chrono::days(3);
  slip.hours = 6;
  slip.people = 4;
  slip.tending_round = Job::ring;
  EXPECT_EQ(fault_of(slip), "tending.slip.before_planting");
}

TEST(Settle, KeepsASlipAsideWithMoreTreesThanPlacesInARow) {
  Slip slip = good_slip();
  slip.lines[0].planted = 61;
  slip.lines[2].planted = 35;
  EXPECT_EQ(fault_of(slip), "tending.slip.row_full");
  slip.lines[0].row = 9;
  EXPECT_EQ(fault_of(slip), "tending.slip.row_unknown");
}

TEST(Settle, KeepsANegativeNumberAside) {
  Slip slip = good_slip();
  slip.dead["Shorea"] = -1;
  EXPECT_EQ(fault_of(slip), "tending.slip.negative");
}

TEST(Settle, CountsTheSameSlipOnce) {
  const Ledger ledger = settle(kDispatches, std::vector{good_slip(), good_slip()}, blocks());
  EXPECT_EQ(ledger.accepted, std::vector<std::size_t>{0});
  EXPECT_EQ(ledger.set_aside, std::vector<std::size_t>{1});
  EXPECT_EQ(ledger.accounts.at("B1").at("Shorea").planted, 96);
}

TEST(Settle, CountsNothingOfASlipThatIsSetAside) {
  Slip slip = good_slip();
  slip.hours = 30;
  const Ledger ledger = settle(kDispatches, std::vector{slip}, blocks());
  EXPECT_EQ(ledger.accounts.at("B1").at("Shorea").planted, 0);
  EXPECT_FALSE(ledger.closed);
}

}  // namespace
}  // namespace wildling::tending
