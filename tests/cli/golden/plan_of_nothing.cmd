# A plan without blocks says what is missing.
wildling new here.gpkg --name "Ladang (invented)" --today 2026-02-02
wildling plan here.gpkg --today 2026-02-02
