"""Drops layout tables and hints from the faces that sheets are printed with, so that the width of a text is the sum
of its advances; cuts the three Noto Sans faces down to what the one before them lacks and packs those with brotli.
Run with fonttools and brotli installed:

    python3 cut-fonts.py FOLDER

FOLDER holds SofiaSans-Regular.ttf, SofiaSans-SemiBold.ttf, NotoSansJP-Regular.ttf, NotoSansSC-Regular.ttf and
NotoSansKR-Regular.ttf (which npm packages they come from: SOURCES.md).
"""

import os
import sys

import brotli
from fontTools import subset
from fontTools.ttLib import TTFont

DROPPED = ["GSUB", "GPOS", "GDEF", "BASE", "VORG", "vhea", "vmtx", "STAT", "DSIG"]
folder = sys.argv[1]
here = os.path.dirname(os.path.abspath(__file__))


def characters(name):
    return set(TTFont(os.path.join(folder, name), lazy=True).getBestCmap())


def is_han(code):
    return 0x2E80 <= code <= 0x9FFF or 0xF900 <= code <= 0xFAFF


def is_hangul(code):
    return 0x1100 <= code <= 0x11FF or 0x3130 <= code <= 0x318F or 0xAC00 <= code <= 0xD7A3


def cut(source, codes, target, packed=True):
    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.notdef_outline = True
    options.drop_tables += DROPPED
    options.name_IDs = ["*"]
    options.glyph_names = False
    font = subset.load_font(os.path.join(folder, source), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=codes)
    cutter.subset(font)
    whole = os.path.join(here, target)
    subset.save_font(font, whole, options)
    if packed:
        with open(whole, "rb") as file:
            content = brotli.compress(file.read(), quality=11, lgwin=24)
        with open(whole + ".br", "wb") as file:
            file.write(content)
        os.remove(whole)


sofia = characters("SofiaSans-Regular.ttf")
japanese = characters("NotoSansJP-Regular.ttf") - sofia
chinese = {code for code in characters("NotoSansSC-Regular.ttf") if is_han(code)} - japanese - sofia
korean = {code for code in characters("NotoSansKR-Regular.ttf") if is_hangul(code)} - japanese - chinese - sofia
for name in ["SofiaSans-Regular", "SofiaSans-SemiBold"]:
    cut(name + ".ttf", characters(name + ".ttf"), name + "-cut.ttf", packed=False)
cut("NotoSansJP-Regular.ttf", japanese, "NotoSansJP-Regular-cut.ttf")
cut("NotoSansSC-Regular.ttf", chinese, "NotoSansSC-Regular-cut.ttf")
cut("NotoSansKR-Regular.ttf", korean, "NotoSansKR-Regular-cut.ttf")
