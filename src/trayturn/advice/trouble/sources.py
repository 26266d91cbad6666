"""The sources that the rules name. Those marked (abstract) were read no further."""

from __future__ import annotations

from trayturn.advice.trouble.parts import Source, Sure

OREGON = Source("Oregon Metro, worm bin trouble-shooting", Sure.ADVICE)
RECYCLEWORKS = Source("RecycleWorks, San Mateo County, worm troubleshooting", Sure.ADVICE)
NC_MITES = Source("NC State Extension, Sherman & Bambara, mite pests in earthworm beds", Sure.ADVICE)
NC_WARMTH = Source("NC State and Illinois Extension, temperature bands", Sure.ADVICE)
EULESS = Source("City of Euless, Texas, vermicomposting, after Appelhof", Sure.ADVICE)
NEW_YORK = Source("New York City compost programme", Sure.ADVICE)
EPA = Source("US EPA, what to leave out, as a newspaper gave it", Sure.ADVICE)
MINNESOTA = Source("Minnesota Department of Agriculture, ammonia", Sure.ADVICE)
CDC_RODENTS = Source("CDC, cleaning up after rodents", Sure.ADVICE)
ALABAMA = Source("Alabama Extension, Kesheimer, as a newspaper gave it in 2023", Sure.ADVICE)
FARMER = Source("NOFA, The Natural Farmer", Sure.ADVICE)

EDWARDS = Source("Earthworm Ecology, 2nd ed. 2004, table 18.3, after Edwards 1988", Sure.RESEARCH)
EDWARDS_DEPTH = Source("Edwards 2011, Vermiculture Technology, ch. 1", Sure.RESEARCH)
KAPLAN = Source("Kaplan et al. 1980, Soil Biol. Biochem. 12:347-352 (abstract)", Sure.RESEARCH)
NDEGWA = Source("Ndegwa & Thompson 2000, Bioresource Technology 75:7-12 (abstract)", Sure.RESEARCH)
NDEGWA_RATE = Source("Ndegwa et al. 2000, Bioresource Technology 71:5-12 (abstract)", Sure.RESEARCH)
CHATELAIN = Source("Chatelain & Mathieu 2017, Soil Biol. Biochem. (abstract)", Sure.RESEARCH)
LIMONENE = Source("Karr et al. 1990, d-limonene and Eisenia fetida (abstract)", Sure.RESEARCH)
CITRUS_ACID = Source("Mahathaninwong et al. 2022, BioResources 17(1):1144-1160", Sure.RESEARCH)
CHOPPED = Source("Hood College thesis, 2022 (abstract)", Sure.RESEARCH)
BULKING = Source("Environmental Engineering Research, paper 611 (abstract)", Sure.RESEARCH)

SREENIVASAN = Source("Sreenivasan, Handbook of Vermicomposting", Sure.BOOK)
SHERMAN = Source("Sherman, Ways with Worm Farming", Sure.BOOK)
SOLOMON = Source("Solomon, Organic Gardener's Composting, 1993", Sure.BOOK)
HAMBURG = Source("TU Hamburg, course page after Edwards 1995", Sure.BOOK)

GRAIN_SHEET = Source("a fact sheet on grain mites, its publisher not noted", Sure.SECOND_HAND)
LEAFLET = Source("Earthworm Biology and Production, its publisher not shown", Sure.SECOND_HAND)
COLUMN = Source("a gardening column on worm bins", Sure.SECOND_HAND)
GNATS = Source("plant-care pages about potting soil; none was found about worm bins", Sure.SECOND_HAND)

TRADE = Source("worm growers' pages", Sure.TRADE)
PRACTICE = Source("keepers of worm bins", Sure.PRACTICE)
OURS = Source("this program", Sure.OURS)
