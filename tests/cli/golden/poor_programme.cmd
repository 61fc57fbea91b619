# Rain, a walk and a list of local names are enough for a draft that says what it does not know.
cp "$SOURCE"/demo/poor/* .
wildling new field.gpkg --name "Ladang Lama (invented)" --spacing 2.7 --today 2026-02-02
wildling take boundary field.gpkg invented_walk.gpx
wildling take weather field.gpkg invented_rain.csv --station "Ladang Lama (invented)" --today 2026-02-02
wildling take species field.gpkg invented_species.csv
wildling plan field.gpkg --seed 20260202 --today 2026-02-02
wildling show field.gpkg
