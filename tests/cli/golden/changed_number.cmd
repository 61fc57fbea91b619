# A number laid over a shipped one makes the plan stale, not wrong.
cp "$SOURCE"/demo/poor/* .
wildling new field.gpkg --name "Ladang Lama (invented)" --spacing 2.7 --today 2026-02-02 2>/dev/null
wildling take boundary field.gpkg invented_walk.gpx 2>/dev/null
wildling take species field.gpkg invented_species.csv 2>/dev/null
wildling plan field.gpkg --seed 1 --today 2026-02-02
wildling set field.gpkg plan.years 4 --source "agreement with the park (invented)"
wildling show field.gpkg >shown.txt
head -n 3 shown.txt
