#include "intake/projection.hpp"

#include <cmath>

#include <proj.h>

namespace wildling::intake {

struct Projection::Impl {
  PJ_CONTEXT* context = nullptr;
  PJ* crs = nullptr;
  PJ* way = nullptr;
  bool degrees = false;

  Impl() = default;
  Impl(const Impl&) = delete;
  Impl& operator=(const Impl&) = delete;

  ~Impl() {
    proj_destroy(way);
    proj_destroy(crs);
    proj_context_destroy(context);
  }
};

namespace {

bool is_geographic(PJ_CONTEXT* context, const PJ* crs) {
  const PJ_TYPE type = proj_get_type(crs);
  if (type == PJ_TYPE_BOUND_CRS) {
    PJ* base = proj_get_source_crs(context, crs);
    const bool result = is_geographic(context, base);
    proj_destroy(base);
    return result;
  }
  if (type == PJ_TYPE_COMPOUND_CRS) {
    PJ* base = proj_crs_get_sub_crs(context, crs, 0);
    const bool result = is_geographic(context, base);
    proj_destroy(base);
    return result;
  }
  return type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS;
}

}  // namespace

Projection::Projection(const std::string& crs, const std::string& where)
    : impl_(std::make_unique<Impl>()) {
  impl_->context = proj_context_create();
  proj_log_level(impl_->context, PJ_LOG_NONE);
  proj_context_set_enable_network(impl_->context, 0);
  impl_->crs = proj_create(impl_->context, crs.c_str());
  if (impl_->crs == nullptr || proj_is_crs(impl_->crs) == 0) {
    throw Error(ErrorKind::input, where, say("intake.crs_unknown", {{"crs", crs}}));
  }
  PJ* target = proj_create(impl_->context, "EPSG:4326");
  const char* const options[] = {"ALLOW_BALLPARK=NO", nullptr};
  PJ* way = proj_create_crs_to_crs_from_pj(impl_->context, impl_->crs, target, nullptr, options);
  proj_destroy(target);
  impl_->way = way == nullptr ? nullptr : proj_normalize_for_visualization(impl_->context, way);
  proj_destroy(way);
  if (impl_->way == nullptr) {
    throw Error(ErrorKind::input, where, say("intake.crs_no_way", {{"crs", name()}}));
  }
  impl_->degrees = is_geographic(impl_->context, impl_->crs);
}

Projection::~Projection() = default;
Projection::Projection(Projection&&) noexcept = default;
Projection& Projection::operator=(Projection&&) noexcept = default;

std::optional<ground::LonLat> Projection::to_wgs84(RawPoint point) const {
  if (!std::isfinite(point.x) || !std::isfinite(point.y)) return {};
  const PJ_COORD out = proj_trans(impl_->way, PJ_FWD, proj_coord(point.x, point.y, 0, HUGE_VAL));
  const ground::LonLat result{std::remainder(out.xy.x, 360.0), out.xy.y};
  if (!std::isfinite(result.lon_deg) || !(std::abs(result.lat_deg) <= 90)) return {};
  return result;
}

bool Projection::degrees() const {
  return impl_->degrees;
}

std::string Projection::name() const {
  const char* name = proj_get_name(impl_->crs);
  return name == nullptr ? "" : name;
}

std::optional<double> Projection::accuracy_m() const {
  PJ* used = proj_trans_get_last_used_operation(impl_->way);
  if (used == nullptr) return {};
  const double accuracy = proj_pj_info(used).accuracy;
  proj_destroy(used);
  if (!(accuracy >= 0)) return {};
  return accuracy;
}

bool Projection::meant_for(ground::LonLat position) const {
  double west = 0, south = 0, east = 0, north = 0;
  if (proj_get_area_of_use(impl_->context, impl_->crs, &west, &south, &east, &north, nullptr) ==
          0 ||
      west < -1000) {
    return true;
  }
  constexpr double kMargin = 3;
  const double middle = west <= east ? (west + east) / 2 : (west + east + 360) / 2;
  const double half = (west <= east ? east - west : east + 360 - west) / 2;
  return position.lat_deg >= south - kMargin && position.lat_deg <= north + kMargin &&
         std::abs(std::remainder(position.lon_deg - middle, 360.0)) <= half + kMargin;
}

}  // namespace wildling::intake
