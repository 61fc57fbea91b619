#include "store/geometry.hpp"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/error.hpp"

namespace wildling::store {
namespace {

Blob bytes(std::string_view hex) {
  Blob out;
  for (std::size_t i = 0; i + 1 < hex.size(); i += 2) {
    out.push_back(static_cast<std::uint8_t>(std::stoi(std::string(hex.substr(i, 2)), nullptr, 16)));
  }
  return out;
}

const MultiPolygon kSquareWithHole{{{{{{117, -1}, {118, -1}, {118, 0}, {117, 0}},
                                      {{117.4, -0.6}, {117.4, -0.4}, {117.6, -0.4}}}}}};

// OGC 12-128r18, clause 2.1.3: 'GP', version 0, flags 01 (little endian, no envelope), 4326, then
// WKB POINT (1 2).
TEST(Geometry, WritesThePointBlobThatTheStandardDescribes) {
  EXPECT_EQ(encode(Position{1, 2}), bytes("47500001E6100000"
                                          "0101000000000000000000F03F0000000000000040"));
}

TEST(Geometry, ReadsABigEndianPointBlob) {
  const Geometry read =
      decode(bytes("47500000000010E6"
                   "00000000013FF00000000000004000000000000000"));
  EXPECT_EQ(std::get<Position>(read), (Position{1, 2}));
}

TEST(Geometry, DropsTheHeightOfAPoint) {
  const Geometry read =
      decode(bytes("47500001E6100000"
                   "01E9030000000000000000F03F00000000000000400000000000004940"));
  EXPECT_EQ(std::get<Position>(read), (Position{1, 2}));
}

TEST(Geometry, ReadsAPolygonAsOnePart) {
  Blob blob = encode(kSquareWithHole);
  // Header 8 + envelope 32 bytes; the multi-polygon's own head is 9 bytes, the polygon follows it.
  blob.erase(blob.begin() + 40, blob.begin() + 49);
  EXPECT_EQ(std::get<MultiPolygon>(decode(blob)), kSquareWithHole);
}

TEST(Geometry, WritesTheEnvelopeIntoTheHeader) {
  const auto box = envelope_of(encode(kSquareWithHole));
  ASSERT_TRUE(box);
  EXPECT_EQ(*box, (Envelope{117, 118, -1, 0}));
}

TEST(Geometry, TakesTheEnvelopeOfAPointFromItsCoordinates) {
  EXPECT_EQ(*envelope_of(encode(Position{1, 2})), (Envelope{1, 1, 2, 2}));
}

TEST(Geometry, KeepsAnEmptyShapeEmpty) {
  const Blob blob = encode(MultiPolygon{});
  EXPECT_EQ(blob[3] & 0x10, 0x10);
  EXPECT_FALSE(envelope_of(blob));
  EXPECT_TRUE(std::get<MultiPolygon>(decode(blob)).parts.empty());
}

TEST(Geometry, RefusesACoordinateThatIsNotOnTheEarth) {
  EXPECT_THROW(encode(Position{181, 0}), Error);
  EXPECT_THROW(encode(Position{0, std::nan("")}), Error);
  EXPECT_THROW(encode(Position{0, 9000000}), Error);
}

TEST(Geometry, RefusesARingOfTwoPoints) {
  EXPECT_THROW(encode(MultiPolygon{{{{{{0, 0}, {1, 1}}}}}}), Error);
}

TEST(Geometry, RefusesAnotherCoordinateSystem) {
  Blob blob = encode(Position{1, 2});
  blob[4] = 0x11;
  EXPECT_THROW(decode(blob), Error);
}

TEST(Geometry, RefusesACountThatIsLargerThanTheBlob) {
  Blob blob = encode(LineString{{{0, 0}, {1, 1}}});
  blob[48] =
      0xff;  // highest byte of the count of points: header 8, envelope 32, order 1, type 4, count 4
  EXPECT_THROW(decode(blob), Error);
}

TEST(Geometry, RefusesEveryBlobThatEndsTooEarly) {
  const Blob blob = encode(kSquareWithHole);
  for (std::size_t n = 0; n < blob.size(); ++n) {
    EXPECT_THROW(decode(std::span(blob).first(n)), Error) << n;
  }
}

RC_GTEST_PROP(Geometry, ReadsWhatItWrites, ()) {
  const auto position =
      rc::gen::map(rc::gen::pair(rc::gen::inRange(-18000, 18001), rc::gen::inRange(-9000, 9001)),
                   [](std::pair<int, int> p) {
                     return Position{p.first / 100.0, p.second / 100.0};
                   });
  const auto ring = rc::gen::suchThat(rc::gen::container<Ring>(position),
                                      [](const Ring& r) { return r.size() >= 3; });
  MultiPolygon shape;
  for (int parts = *rc::gen::inRange(0, 4); parts > 0; --parts) {
    PolygonPart part{{*ring}};
    for (int holes = *rc::gen::inRange(0, 3); holes > 0; --holes) part.rings.push_back(*ring);
    shape.parts.push_back(part);
  }
  RC_ASSERT(decode(encode(shape)) == Geometry(shape));
}

}  // namespace
}  // namespace wildling::store
