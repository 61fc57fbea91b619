#include "layout/region.hpp"

#include <cmath>
#include <memory>
#include <numbers>
#include <string>

#include <geos_c.h>

#include "base/error.hpp"

namespace wildling::layout {
namespace {

using ground::Xy;

constexpr int kQuarterSegments = 32;
constexpr double kRoundingMm = 2;  // both the boundary and the places are rounded to the millimetre

/// GEOS with its own context: no global state, its messages kept.
class Geos {
 public:
  Geos() : context_(GEOS_init_r()) {
    GEOSContext_setErrorMessageHandler_r(
        context_, [](const char* text, void* self) { static_cast<Geos*>(self)->last_ = text; },
        this);
  }

  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  ~Geos() { GEOS_finish_r(context_); }

  struct Free {
    GEOSContextHandle_t context;

    void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(context, g); }
  };

  using Shape = std::unique_ptr<GEOSGeometry, Free>;

  Shape own(GEOSGeometry* g) const {
    if (g == nullptr)
      throw Error(ErrorKind::internal, "block", say("layout.geometry_failed", {{"reason", last_}}));
    return Shape(g, Free{context_});
  }

  [[nodiscard]] GEOSContextHandle_t handle() const { return context_; }

  [[nodiscard]] double area_m2(const Shape& g) const {
    double mm2 = 0;
    if (GEOSArea_r(context_, g.get(), &mm2) == 0) own(nullptr);
    return mm2 * 1e-6;
  }

 private:
  GEOSContextHandle_t context_;
  std::string last_;
};

std::int64_t to_mm(double metres) {
  if (!std::isfinite(metres) || std::abs(metres) > 1e6) {
    throw Error(ErrorKind::input, "block", say("layout.shape_too_far"));
  }
  return std::llround(metres * 1000);
}

GEOSCoordSequence* sequence(const Geos& geos, std::span<const Xy> points, bool close) {
  std::vector<double> flat;
  for (const Xy& p : points) {
    flat.push_back(static_cast<double>(to_mm(p.x_m)));
    flat.push_back(static_cast<double>(to_mm(p.y_m)));
  }
  if (close && (flat[0] != flat[flat.size() - 2] || flat[1] != flat.back())) {
    flat.push_back(flat[0]);
    flat.push_back(flat[1]);
  }
  return GEOSCoordSeq_copyFromBuffer_r(geos.handle(), flat.data(),
                                       static_cast<unsigned>(flat.size() / 2), 0, 0);
}

GEOSGeometry* linear_ring(const Geos& geos, std::span<const Xy> points) {
  if (points.size() < 3) throw Error(ErrorKind::input, "block", say("layout.ring_too_short"));
  return GEOSGeom_createLinearRing_r(geos.handle(), sequence(geos, points, true));
}

Geos::Shape polygon(const Geos& geos, const ground::XyPolygon& part) {
  Geos::Shape outer = geos.own(linear_ring(geos, part.outer));
  std::vector<Geos::Shape> owned;
  for (const auto& hole : part.holes) owned.push_back(geos.own(linear_ring(geos, hole)));
  std::vector<GEOSGeometry*> holes;
  for (auto& hole : owned) holes.push_back(hole.release());
  return geos.own(GEOSGeom_createPolygon_r(geos.handle(), outer.release(), holes.data(),
                                           static_cast<unsigned>(holes.size())));
}

Geos::Shape collect(const Geos& geos, std::vector<Geos::Shape> parts, int type) {
  std::vector<GEOSGeometry*> raw;
  for (auto& part : parts) raw.push_back(part.release());
  return geos.own(GEOSGeom_createCollection_r(geos.handle(), type, raw.data(),
                                              static_cast<unsigned>(raw.size())));
}

/// Rounding to millimetres may make hair-thin faults; anything larger is the intake's to repair.
Geos::Shape whole_block(const Geos& geos, const ground::XyShape& block) {
  if (block.empty()) throw Error(ErrorKind::input, "block", say("layout.shape_empty"));
  std::vector<Geos::Shape> parts;
  for (const auto& part : block) {
    Geos::Shape one = polygon(geos, part);
    if (GEOSisValid_r(geos.handle(), one.get()) != 1) {
      const double before = geos.area_m2(one);
      one = geos.own(GEOSMakeValid_r(geos.handle(), one.get()));
      if (std::abs(geos.area_m2(one) - before) > std::max(0.1, 1e-6 * before)) {
        throw Error(ErrorKind::input, "block", say("layout.boundary_crosses_itself"));
      }
    }
    parts.push_back(std::move(one));
  }
  if (parts.size() == 1) return std::move(parts.front());
  const Geos::Shape all = collect(geos, std::move(parts), GEOS_GEOMETRYCOLLECTION);
  return geos.own(GEOSUnaryUnion_r(geos.handle(), all.get()));
}

/// Wide enough that a polygon drawn with corners on this circle keeps outside the circle of
/// `setback_m`.
double radius_mm(double setback_m) {
  return setback_m * 1000 / std::cos(std::numbers::pi / (4 * kQuarterSegments)) + kRoundingMm;
}

Geos::Shape water_strip(const Geos& geos, std::span<const std::vector<Xy>> water,
                        double setback_m) {
  std::vector<Geos::Shape> strips;
  for (const auto& line : water) {
    if (line.size() < 2) continue;
    Geos::Shape path =
        geos.own(GEOSGeom_createLineString_r(geos.handle(), sequence(geos, line, false)));
    const bool pond = line.size() >= 4 && line.front().x_m == line.back().x_m &&
                      line.front().y_m == line.back().y_m;
    if (pond) {
      Geos::Shape inside = polygon(geos, {.outer = line, .holes = {}});
      strips.push_back(geos.own(GEOSBuffer_r(geos.handle(), inside.get(), 0, kQuarterSegments)));
    }
    if (setback_m > 0) {
      strips.push_back(geos.own(
          GEOSBuffer_r(geos.handle(), path.get(), radius_mm(setback_m), kQuarterSegments)));
    }
  }
  const Geos::Shape all = collect(geos, std::move(strips), GEOS_GEOMETRYCOLLECTION);
  return geos.own(GEOSUnaryUnion_r(geos.handle(), all.get()));
}

RingMm read_ring(const Geos& geos, const GEOSGeometry* ring) {
  const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(geos.handle(), ring);
  unsigned n = 0;
  GEOSCoordSeq_getSize_r(geos.handle(), points, &n);
  RingMm out;
  for (unsigned i = 0; i + 1 < n; ++i) {  // the last point repeats the first
    double x = 0;
    double y = 0;
    GEOSCoordSeq_getXY_r(geos.handle(), points, i, &x, &y);
    out.push_back({std::llround(x), std::llround(y)});
  }
  return out;
}

std::vector<RingMm> read_rings(const Geos& geos, const Geos::Shape& shape) {
  std::vector<RingMm> rings;
  const int parts = GEOSGetNumGeometries_r(geos.handle(), shape.get());
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(geos.handle(), shape.get(), i);
    if (GEOSGeomTypeId_r(geos.handle(), part) != GEOS_POLYGON ||
        GEOSisEmpty_r(geos.handle(), part) == 1)
      continue;
    rings.push_back(read_ring(geos, GEOSGetExteriorRing_r(geos.handle(), part)));
    const int holes = GEOSGetNumInteriorRings_r(geos.handle(), part);
    for (int h = 0; h < holes; ++h) {
      rings.push_back(read_ring(geos, GEOSGetInteriorRingN_r(geos.handle(), part, h)));
    }
  }
  return rings;
}

}  // namespace

Region usable_region(const ground::XyShape& block, std::span<const std::vector<Xy>> water,
                     double setback_edge_m, double setback_water_m) {
  const Geos geos;
  Region region;
  Geos::Shape shape = whole_block(geos, block);
  region.block_area_m2 = geos.area_m2(shape);
  if (setback_edge_m > 0) {
    shape = geos.own(
        GEOSBuffer_r(geos.handle(), shape.get(), -radius_mm(setback_edge_m), kQuarterSegments));
  }
  const double inner_m2 = geos.area_m2(shape);
  region.lost_at_edge_m2 = region.block_area_m2 - inner_m2;
  if (!water.empty()) {
    const Geos::Shape strip = water_strip(geos, water, setback_water_m);
    shape = geos.own(GEOSDifference_r(geos.handle(), shape.get(), strip.get()));
  }
  region.usable_area_m2 = geos.area_m2(shape);
  region.lost_at_water_m2 = inner_m2 - region.usable_area_m2;
  region.rings = read_rings(geos, shape);
  return region;
}

struct BlockGround::Impl {
  Geos geos;
  Geos::Shape shape;

  Impl(const ground::XyShape& block, double tolerance_m) : shape(nullptr, Geos::Free{nullptr}) {
    const Geos::Shape whole = whole_block(geos, block);
    shape = geos.own(GEOSBuffer_r(geos.handle(), whole.get(), tolerance_m * 1000, 2));
  }
};

BlockGround::BlockGround(const ground::XyShape& block, double tolerance_m)
    : impl_(std::make_unique<Impl>(block, tolerance_m)) {}

BlockGround::~BlockGround() = default;

double BlockGround::outside_m(Xy a, Xy b) const {
  const Geos& geos = impl_->geos;
  const std::vector<Xy> ends = {a, b};
  const Geos::Shape line =
      geos.own(GEOSGeom_createLineString_r(geos.handle(), sequence(geos, ends, false)));
  const Geos::Shape rest =
      geos.own(GEOSDifference_r(geos.handle(), line.get(), impl_->shape.get()));
  double mm = 0;
  GEOSLength_r(geos.handle(), rest.get(), &mm);
  return mm / 1000;
}

}  // namespace wildling::layout
