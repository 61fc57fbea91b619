# A command that is not there is refused with where to look.
wildling plant demo.gpkg
