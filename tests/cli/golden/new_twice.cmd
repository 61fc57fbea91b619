# A programme is never made over another.
wildling new here.gpkg --name "Ladang (invented)" --today 2026-02-02
wildling new here.gpkg --name "Other (invented)" --today 2026-02-02
