"""Reports: escaped, self-contained, with a strict policy; the same content as PDF; cautions and sources in all."""

import io
import re
from html.parser import HTMLParser

import numpy as np
import pytest

from hoofsim.cautions import CAUTIONS, LIMITS
from hoofsim.reports.html_page import html
from hoofsim.reports.page import Bullets, Page, PagePicture, PageTable, Paragraph, Section, closing_sections
from hoofsim.reports.pdf_page import pdf

HOSTILE = "<script>alert('x')</script> & \"quoted\""
PNG = (
    b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x06\x00\x00\x00\x1f\x15\xc4\x89"
    b"\x00\x00\x00\rIDATx\x9cc\xf8\xcf\xc0\xf0\x1f\x00\x05\x00\x01\xff\x89\x99=\x1d\x00\x00\x00\x00IEND\xaeB`\x82"
)


class Read(HTMLParser):
    """Collects tags, their attributes and the text of a document."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.words = [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))

    def handle_data(self, data):
        self.words.append(data)


def page(**more):
    blocks = [
        Paragraph(HOSTILE, strong=True),
        Paragraph(HOSTILE),
        Bullets([HOSTILE]), PagePicture(PNG, HOSTILE),
        PageTable(HOSTILE, [HOSTILE, "number"], [[HOSTILE, "1.0"], ["b", "2.0"]], (1,)),
    ]  # fmt: skip
    return Page(
        HOSTILE, [Section(HOSTILE, blocks), *closing_sections(["tip_to_frog", "founder_distance"])], **more
    )


def test_hostile_words_stay_words():
    read = Read(html(page(label=HOSTILE)))
    assert not any(tag == "script" for tag, _ in read.tags)
    assert "".join(read.words).count(HOSTILE) >= 8
    assert all(attributes.get("alt") == HOSTILE for tag, attributes in read.tags if tag == "img")


def test_nothing_is_fetched_and_nothing_may_run():
    text = html(page())
    read = Read(text)
    policy = next(a["content"] for tag, a in read.tags if a.get("http-equiv") == "Content-Security-Policy")
    assert policy.startswith("default-src 'none'; img-src data:; style-src 'sha256-")
    assert not any(name in a for _, a in read.tags for name in ("href", "onclick", "style", "srcset"))
    assert all(a["src"].startswith("data:image/png;base64,") for tag, a in read.tags if "src" in a)
    assert "http:" not in text
    assert "https:" not in text


def test_the_policy_names_the_very_style_that_the_page_holds():
    import base64
    import hashlib

    text = html(page())
    style = re.search(r"<style>(.*?)</style>", text, re.DOTALL).group(1)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    assert f"sha256-{digest}" in text


def test_what_may_be_wider_than_a_phone_scrolls_in_its_own_frame():
    tags = Read(html(page())).tags
    holders = [tags[at - 1] for at, (tag, _) in enumerate(tags) if tag in ("img", "table")]
    assert holders == [("div", {"class": "wide"})] * 2


def test_every_report_ends_with_limits_cautions_and_sources():
    words = "".join(Read(html(page())).words)
    assert LIMITS in words
    for caution in CAUTIONS:
        assert caution in words
    assert "R10:" in words  # the source of tip to frog
    assert "R3:" in words
    assert "[memory]" in words  # how well it is known
    assert "Medial-lateral displacement is outside a sagittal view" in words


def test_a_pdf_is_made_whole_and_is_the_same_each_time():
    first = pdf(page(label="INVENTED DATA"))
    assert first.startswith(b"%PDF-")
    assert first.rstrip().endswith(b"%%EOF")
    assert first == pdf(page(label="INVENTED DATA"))


def test_letters_of_one_row_stand_on_one_line(monkeypatch):
    from matplotlib.backends.backend_pdf import PdfPages

    figures = []
    monkeypatch.setattr(PdfPages, "savefig", lambda self, figure: figures.append(figure))
    row = ["Ivy", "onage", "'", "ÄÉ", "12"]
    pdf(Page("t", [Section("s", [PageTable("c", ["a", "b", "c", "d", "e"], [row], (4,))])]))
    drawn = {text.get_text(): text for text in figures[0].texts}
    assert {drawn[word].get_verticalalignment() for word in row} == {"baseline"}
    assert len({drawn[word].get_position()[1] for word in row}) == 1


def test_a_long_report_runs_on_to_further_pages():
    long = Page(
        "Long", [Section("Rows", [PageTable("many", ["a", "b"], [[str(i), "x"] for i in range(300)])])]
    )
    short = Page("Short", [Section("Rows", [Paragraph("one")])])
    count = lambda data: len(re.findall(rb"/Type /Page\b", data))  # noqa: E731
    assert count(pdf(short)) == 1
    assert count(pdf(long)) >= 4


@pytest.mark.parametrize("text", ["", "word", "a" * 400, "costs $5 and $6"])
def test_any_text_can_be_set(text):
    assert pdf(Page("t", [Section("s", [Paragraph(text), Bullets([text])])])).startswith(b"%PDF-")


def test_the_test_picture_is_a_picture():
    from matplotlib import image

    assert image.imread(io.BytesIO(PNG), format="png").shape[:2] == (1, 1)
    assert np.isfinite(image.imread(io.BytesIO(PNG), format="png")).all()
