"""A report as one HTML file: self-contained, every word escaped, and a content policy that lets nothing else in."""

import hashlib
from base64 import b64encode
from collections.abc import Sequence
from html import escape

from hoofsim.reports.page import Bullets, Page, PageBlock, PagePicture, PageTable, Paragraph, Section

_STYLE = """
:root { color-scheme: light; }
body { font: 16px/1.5 "Open Sans", "Segoe UI", Helvetica, Arial, sans-serif; color: #211c17; background: #fbf9f4;
  max-width: 60rem; margin: 0 auto; padding: 1.5rem; overflow-wrap: break-word; }
h1 { font-size: 1.7rem; line-height: 1.25; } h2 { font-size: 1.15rem; margin: 1.6rem 0 .4rem; }
.label { border: 2px solid #96190f; color: #96190f; padding: .5rem .8rem; font-weight: 600; }
.strong { font-weight: 600; font-size: 1.08rem; }
.wide { overflow-x: auto; margin: 1rem 0; }
img { display: block; box-sizing: border-box; width: 100%; height: auto; border: 1px solid #d8d0c0; }
table { border-collapse: collapse; font-size: .88rem; width: 100%; }
figure { margin: 1rem 0; } figure .wide { margin: 0; } figcaption { color: #5b5348; font-size: .88rem; padding: .3rem 0; }
th, td { text-align: left; padding: .2rem .6rem .2rem 0; border-bottom: 1px solid #ddd6c8; vertical-align: top; }
.number { text-align: right; font-variant-numeric: tabular-nums; } td.number { white-space: nowrap; }
.number + :not(.number) { padding-left: .6rem; }
ul { padding-left: 1.2rem; } li { margin: .15rem 0; }
@media screen and (max-width: 48rem) { body { padding: 1rem; } img { min-width: 52rem; }
  td:first-child { min-width: 5rem; } td:not(.number) { hyphens: auto; } }
@page { margin: 13mm; }
@media print { :root { font-size: 10pt; } body { font-size: 1rem; max-width: none; padding: 0; background: #fff; }
  h1, h2, figcaption { break-after: avoid; } img, tr, li { break-inside: avoid; }
  table { font-size: .82rem; } th, td { padding-right: .4rem; }
  .wide { overflow: visible; } img { width: auto; max-width: 100%; max-height: 17cm; } }
"""


def html(page: Page) -> str:
    """The whole document. Nothing is fetched and no script can run: the policy allows its own style and inline images."""
    digest = b64encode(hashlib.sha256(_STYLE.encode("utf-8")).digest()).decode("ascii")
    policy = (
        f"default-src 'none'; img-src data:; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    )
    label = f'<p class="label">{escape(page.label)}</p>' if page.label else ""
    body = "\n".join(_section(section) for section in page.sections)
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(page.title)}</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n<main>\n"
        f"<h1>{escape(page.title)}</h1>\n{label}\n{body}\n</main>\n</body>\n</html>\n"
    )


def _section(section: Section) -> str:
    blocks = "\n".join(_block(block) for block in section.blocks)
    return f"<section>\n<h2>{escape(section.heading)}</h2>\n{blocks}\n</section>"


def _block(block: PageBlock) -> str:
    if isinstance(block, Paragraph):
        return (
            f'<p class="strong">{escape(block.text)}</p>' if block.strong else f"<p>{escape(block.text)}</p>"
        )
    if isinstance(block, Bullets):
        return "<ul>\n" + "\n".join(f"<li>{escape(item)}</li>" for item in block.items) + "\n</ul>"
    if isinstance(block, PagePicture):
        data = b64encode(block.png).decode("ascii")
        return f'<div class="wide"><img alt="{escape(block.words)}" src="data:image/png;base64,{data}"></div>'
    return _table(block)


def _table(table: PageTable) -> str:
    def cells(tag: str, row: Sequence[str]) -> str:
        return "".join(
            f'<{tag} class="number">{escape(cell)}</{tag}>'
            if at in table.numeric
            else f"<{tag}>{escape(cell)}</{tag}>"
            for at, cell in enumerate(row)
        )

    rows = "\n".join(f"<tr>{cells('td', row)}</tr>" for row in table.rows)
    return (
        f'<figure>\n<figcaption>{escape(table.caption)}</figcaption>\n<div class="wide"><table>\n'
        f"<thead><tr>{cells('th', table.head)}</tr></thead>\n<tbody>\n{rows}\n</tbody>\n</table></div>\n</figure>"
    )
