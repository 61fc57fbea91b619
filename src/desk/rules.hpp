#pragma once

/// The headers that every answer carries. One place, so that they can be read at a glance.

namespace wildling::desk {

/// Scripts, styles, fonts, workers and connections of our own only; nothing may frame the page. The
/// hash is that of the style element which the chart library writes.
inline constexpr const char* kContentSecurityPolicy =
    "default-src 'none'; script-src 'self'; "
    "style-src 'self' 'sha256-9ZaAib3FX9z9jIFcrVN0kfdy5q83A6xCKz3nqOIj7Z0='; "
    "font-src 'self'; img-src 'self' data: blob:; worker-src 'self'; connect-src 'self'; "
    "manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

}  // namespace wildling::desk
