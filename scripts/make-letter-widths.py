"""Writes src/book/letter-widths.ts: how wide each letter of the bundled font is, out of the font files themselves.

python3 -m venv VENV && VENV/bin/pip install fonttools brotli && VENV/bin/python scripts/make-letter-widths.py
"""
from pathlib import Path
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

root = Path(__file__).resolve().parent.parent
folder = root / "node_modules/@fontsource-variable/source-sans-3/files"
subsets = ["latin", "latin-ext", "greek", "cyrillic", "vietnamese"]
weights = {"regular": 400, "bold": 700}
ranges = [(0x20, 0x7E), (0xA0, 0x17F), (0x384, 0x3CE), (0x400, 0x45F), (0x2010, 0x2044), (0x20AC, 0x20AC), (0x2122, 0x2122), (0x2191, 0x2193), (0x2212, 0x2215)]

widths: dict[str, dict[int, int]] = {}
for name, weight in weights.items():
    widths[name] = {}
    for subset in subsets:
        font = TTFont(folder / f"source-sans-3-{subset}-wght-normal.woff2")
        instantiateVariableFont(font, {"wght": weight}, inplace=True)
        for code, glyph in font.getBestCmap().items():
            widths[name].setdefault(code, font["hmtx"][glyph][0])

out = [
    "// Made by scripts/make-letter-widths.py out of the font files; not written by hand.",
    "",
    "/** Advance widths of one stretch of letters, in thousandths of the text's size; 0 = the font has no such letter. */",
    "export interface LetterRow {",
    "  readonly from: number;",
    "  readonly regular: readonly number[];",
    "  readonly bold: readonly number[];",
    "}",
    "",
    "/** The bundled font, Source Sans 3, at weights 400 and 700, without kerning. */",
    "export const letterRows: readonly LetterRow[] = [",
]
for first, last in ranges:
    row = ", ".join(f"{name}: [{', '.join(str(widths[name].get(code, 0)) for code in range(first, last + 1))}]" for name in weights)
    out.append(f"  {{ from: {first}, {row} }},")
out.append("];")
(root / "src/book/letter-widths.ts").write_text("\n".join(out) + "\n")
