#!/usr/bin/env python3
"""Makes the typeface of page and cloth from Andika 6.101 (Debian package fonts-sil-andika):

    subset.py Andika-Regular.ttf regular; subset.py Andika-Bold.ttf bold

It keeps the letters of the European languages, figures and fractions, takes the two-storey
a and g of feature ss01 into the map of characters, since the cloth knows no features, and
leaves out hints, kerning and layout, so that page and cloth set a line alike. As the licence
asks of a changed font, it has a name of its own. Needed: fonttools, brotli.
"""
import sys

from fontTools import subset
from fontTools.ttLib import TTFont

KEPT = [
    *range(0x20, 0x7F), *range(0xA0, 0x180), 0x218, 0x219, 0x21A, 0x21B, 0x1E9E,
    0x2009, 0x2010, 0x2011, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A, 0x201C, 0x201D, 0x201E, 0x2022, 0x2026,
    0x202F, 0x2030, 0x2032, 0x2033, 0x2039, 0x203A, 0x2044, 0x20AC, 0x2153, 0x2154, 0x215B, 0x215C, 0x215D, 0x215E,
    0x2190, 0x2191, 0x2192, 0x2193, 0x2212, 0x2248, 0x2260, 0x2264, 0x2265,
]
# The cloth and the cards also show names in Cyrillic, and what Greek there is in the original;
# the page has other faces for these.
NAMES = [*range(0x391, 0x3CA), *range(0x400, 0x460), 0x490, 0x491]
NAME = "Unthreaded Sans"


def main(source, weight):
    made(source, weight, KEPT).save(f"../../../wasm/site/sans-{weight}.woff2")
    if weight == "regular":
        font = made(source, weight, KEPT + NAMES)
        font.flavor = None
        font.save("regular.ttf")


def made(source, weight, kept):
    """Returns the font of the characters kept, to be written as WOFF2."""
    font = TTFont(source)
    swaps = {}
    gsub = font["GSUB"].table
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == "ss01":
            for i in record.Feature.LookupListIndex:
                for sub in gsub.LookupList.Lookup[i].SubTable:
                    sub = getattr(sub, "ExtSubTable", sub)
                    swaps.update(getattr(sub, "mapping", {}))
    for table in font["cmap"].tables:
        if table.isUnicode():
            for code, glyph in list(table.cmap.items()):
                if glyph in swaps:
                    table.cmap[code] = swaps[glyph]
    options = subset.Options()
    options.hinting, options.layout_features, options.glyph_names = False, [], False
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "kern", "DSIG", "Silf", "Sill", "Feat", "Glat", "Gloc", "FFTM", "meta"]
    options.name_IDs = [0, 1, 2, 3, 4, 6, 13, 14]
    options.notdef_outline = True
    cut = subset.Subsetter(options)
    cut.populate(unicodes=kept)
    cut.subset(font)
    style = weight.capitalize()
    for record in font["name"].names:
        record.string = {
            1: NAME, 2: style, 3: f"{NAME} {style}", 4: f"{NAME} {style}", 6: f"UnthreadedSans-{style}",
        }.get(record.nameID, record.toUnicode())
    # The line of the original is 1.61 em high; accents reach 1.04 em up and 0.28 em down.
    em = font["head"].unitsPerEm
    up, down = em, int(0.3 * em)
    hhea, os2 = font["hhea"], font["OS/2"]
    hhea.ascent, hhea.descent, hhea.lineGap = up, -down, 0
    os2.sTypoAscender, os2.sTypoDescender, os2.sTypoLineGap = up, -down, 0
    os2.usWinAscent, os2.usWinDescent = int(1.05 * em), down
    font.flavor = "woff2"
    return font


main(*sys.argv[1:])
