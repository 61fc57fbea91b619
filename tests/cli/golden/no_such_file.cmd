# A programme that is not there is named, in the language asked for.
wildling show not-there.gpkg --lang id
