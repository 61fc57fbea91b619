# A day that is none is refused by the option's name.
wildling new here.gpkg --name "Ladang (invented)" --today 2026-02-30
