# A key that is not there is answered with keys that hold its letters.
cp "$SOURCE"/demo/poor/* .
wildling new field.gpkg --name "Ladang Lama (invented)" --today 2026-02-02 2>/dev/null
wildling take boundary field.gpkg invented_walk.gpx 2>/dev/null
wildling take species field.gpkg invented_species.csv 2>/dev/null
wildling plan field.gpkg --seed 1 --today 2026-02-02 2>/dev/null
wildling explain field.gpkg germination_of_durian
