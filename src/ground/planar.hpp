#pragma once
#include <memory>
#include <optional>

#include <geos_c.h>

#include "ground/frame.hpp"

/// GEOS behind the fewest calls that cutting needs; for .cpp files only.
namespace wildling::ground::planar {

/// One GEOS context (its reentrant interface): one per thread and call.
class Context {
 public:
  Context() : handle_(GEOS_init_r()) {}

  ~Context() { GEOS_finish_r(handle_); }

  Context(const Context&) = delete;
  Context& operator=(const Context&) = delete;

  [[nodiscard]] GEOSContextHandle_t get() const { return handle_; }

 private:
  GEOSContextHandle_t handle_;
};

struct Destroy {
  GEOSContextHandle_t context = nullptr;

  void operator()(GEOSGeometry* geometry) const { GEOSGeom_destroy_r(context, geometry); }
};

using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

/// Takes ownership. @throws Error{input} when `geometry` is null: the operation failed
Geometry own(const Context& context, GEOSGeometry* geometry);

Geometry polygon(const Context& context, const XyPolygon& polygon);

/// Every polygon inside any geometry with a positive area; lines and points are left out.
XyShape polygons(const Context& context, const GEOSGeometry* geometry);

/// What both have in common. @throws Error{input} if either is not valid
XyShape common(const Context& context, const XyPolygon& a, const XyPolygon& b);

/// Both as one. @throws as `common`
XyShape together(const Context& context, const XyShape& a, const XyShape& b);

/// Length of the edges that the outlines share. @throws as `common`
double shared_edge_m(const Context& context, const XyShape& a, const XyShape& b);

double distance_m(const Context& context, const XyShape& a, const XyShape& b);

bool valid(const Context& context, const XyShape& shape);

/// Where the outlines first cross or touch in a way they may not; empty when they are valid.
std::optional<Xy> fault(const Context& context, const XyShape& shape);

/// Repaired by GEOS MakeValid's structure method: both lobes of a ring that crosses itself are
/// kept, overlapping parts become one, what has no area is dropped.
XyShape made_valid(const Context& context, const XyShape& shape);

/// Direction of the longer side of the smallest rectangle around the polygon: a unit vector, east
/// >= 0 (north when east is 0).
Xy longer_axis(const Context& context, const XyPolygon& polygon);

}  // namespace wildling::ground::planar
