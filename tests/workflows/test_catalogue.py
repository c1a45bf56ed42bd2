"""``library page``: what the pages hold, that strangers' text stays text, that they are the same wherever they are
made.

Outside checks: html5lib, a parser after the HTML standard; markdown-it, a CommonMark parser.
"""

from __future__ import annotations

import re
import shutil
import unicodedata
from base64 import b64encode
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import pytest
from markdown_it import MarkdownIt

from profilesmith.evidence.append_record import append_record
from profilesmith.evidence.file_name import safe_stem
from profilesmith.evidence.record import Record
from profilesmith.evidence.tried_mend import TriedMend
from profilesmith.ledger.history import Verdict
from profilesmith.library.find import shipped
from profilesmith.write_files import write_whole
from tests.shipped import cautions, version

Program = Callable[..., Any]
X = "{http://www.w3.org/1999/xhtml}"
NASTY = (
    "</style></title><script>alert(1)</script><img src=x onerror=alert(2)> "
    "![x](http://a.example/p) [link](http://a.example) *bold* `code` | cell \\ &amp; {{7*7}} "
    "\u202eback \x1b[2J"
)
LIBRARY = 'format = 1\n[library]\nname = "{name}"\nlicence = "CC0-1.0"\nabout = "{name}"\nkeepers = ["{name}"]\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "{name}"\nversion = "1.0.0"\ntitle = "{text}"\n'
    'from = "{text}"\nto = "{text}"\nlicence = "{text}"\nauthors = ["{text}"]\n'
    'cautions = ["{text}"]\n'
    '[inputs.most]\nkind = "speed"\nask = "{text}"\ndefault = "40 mm/s"\n[inputs.none]\n'
    'kind = "speed"\nask = "{text}"\n'
    '[[rule]]\nsetting = "outer_wall.speed"\ncap = {{ input = "most" }}\nwhy = "{text}"\n'
    'source = "{text}"\n[[rule]]\nsetting = "infill.speed"\ncap = {{ input = "none" }}\n'
    'why = "{text}"\n'
    '[[rule]]\nsetting = "infill.pattern"\nset = "gyroid"\nwhy = "{text}"\n'
)


def quoted(text: str) -> str:
    return "".join(char if char.isprintable() and char not in '"\\' else f"\\u{ord(char):04x}" for char in text)


def record(recipe: str, mark: str, **more: Any) -> Record:
    base = Record(
        "2030-01-31",
        recipe,
        more.pop("version", "") or version(recipe),
        "worked",
        {"adhesion": "good"},
        {"machine.drive": "remote", "spool.hardness": "92 Shore A"},
        {},
        mark,
    )
    return base._replace(**more)


def tried(folder: Path) -> None:
    """Invented prints of two recipes: in a test alone, since the shipped library claims nothing that nobody printed."""
    for number, outcome in enumerate(("worked", "worked", "worked")):
        append_record(
            folder / "evidence/flexible-pla.jsonl",
            record("flexible-pla", f"{number:08x}", outcome=outcome, note=f"Print {number}"),
            write_whole,
        )
    append_record(
        folder / "evidence/tpu-95a.jsonl",
        record("tpu-95a", "0000000a", outcome="partly", judged={"stringing": "poor"}),
        write_whole,
    )
    append_record(folder / "evidence/tpu-95a.jsonl", record("tpu-95a", "0000000b", version="0.9.0"), write_whole)


@pytest.fixture
def club(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    shutil.copytree(shipped(), tmp_path / "club")
    tried(tmp_path / "club")
    return tmp_path / "club"


@pytest.fixture
def hostile(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "hostile"
    (folder / "recipes").mkdir(parents=True)
    (folder / "library.toml").write_text(LIBRARY.format(name=quoted(NASTY)), encoding="utf-8")
    for stem, name in (("con", "../x"), ("slow", "../../etc/passwd"), ("Slow", quoted(NASTY))):
        (folder / "recipes" / f"{stem}.toml").write_text(RECIPE.format(name=name, text=quoted(NASTY)), encoding="utf-8")
    (folder / "recipes" / "torn.toml").write_text(f'format = 1\n"{quoted(NASTY)}" = 1\n', encoding="utf-8")
    note = "<script>alert(1)</script> [link](http://a.example) | cell"
    nasty = TriedMend(troubles=(note,), did=(note,), came="better")
    append_record(
        folder / "evidence" / f"{safe_stem('../x')}.jsonl",
        record("../x", "00000001", note=note, version="1.0.0", seen={note: "poor"}, mends=(nasty,)),
        write_whole,
    )
    return folder


def parsed(path: Path) -> Element:
    return html5lib.HTMLParser(strict=True).parse(path.read_text(encoding="utf-8"))


def words(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def test_the_index_tells_title_way_version_evidence_and_cautions(club: Path, program: Program) -> None:
    ran = program("library", "page", "club", "-o", "pages")
    assert ran.code == 0, ran.err
    rows = [[words(cell) for cell in row] for row in parsed(Path("pages/index.html")).iter(f"{X}tr")]
    found = {row[0]: row[1:] for row in rows}
    flexible = found["Flexible PLA from a profile that prints rigid PLA flexible-pla"]
    assert flexible == [
        "From → torigid PLA →to flexible PLA",
        f"Version{version('flexible-pla')}",
        "Evidence3 of 3 worked (29 % to 100 %)",
        f"Cautions{cautions('flexible-pla')}",
    ]
    assert (
        "Evidence0 of 1 worked, too few to tell (0 % to 98 %)"
        in found["TPU 95A from a profile that prints rigid PLA tpu-95a"]
    )
    assert "Evidencenot tried" in found["A part that gives way easily part-soft"]
    assert len(rows) == 1 + len(list(club.glob("*.toml"))) - 1


def test_a_recipes_page_holds_all_of_it(club: Path, program: Program) -> None:
    program("library", "page", "club", "-o", "pages")
    text = words(parsed(Path("pages/flexible-pla.html")))
    for told in (
        "From rigid PLA to flexible PLA",
        "Tried 3 times, worked 3 of 3: at least 29 % would work, with 95 % confidence.",
        "no fair sample",
        "Print 2",
        "drive remote",
        "hardness 92 Shore A",
        "Support density: at least 30 %",
        "A soft part sags between support lines",
        "Source: line spacing = bead width / density (geometry); 30 %: common practice",
        "only when machine.drive is direct",
        "inside bed_window (asked; else 25 °C to 65 °C)",
        "at most the speed at which the bead takes maximum_flow (asked; else 4 mm³/s)",
        "at most 1000 mm/s²",
        "Which nozzle temperatures does the spool's label allow?",
        "spool.nozzle_window",
        "210 °C to 220 °C",
        "Ventilate the room",
        "plain-shop",
        "14 %",
        "profiles/plain-shop.settings, line",
        f"flexible-pla {version('flexible-pla')}, rule 7",
    ):
        assert told in text, told
    other = words(parsed(Path("pages/tpu-95a.html")))
    assert "worked 0 of 1, 1 partly: too few to tell (0 % to 98 % of such prints would work" in other
    assert "Other versions (0.9): worked 1 of 1; it is not counted here." in other


def test_a_recipes_page_tells_which_troubles_were_seen_and_what_helped(club: Path, program: Program) -> None:
    """The ranges are Clopper and Pearson's: 3 of 6 is 11.8 % to 88.2 %, 1 of 2 is 1.26 % to 98.74 %."""
    verdicts: tuple[Verdict, ...] = ("better", "same", "")
    for number, came in enumerate(verdicts):
        cooler = {"nozzle.temperature": ("215 °C", "210 °C")}
        mend = TriedMend(f"2030-01-2{number}", {"stringing": "poor"}, ("stringing",), cooler, (), came)
        made = record("part-soft", f"{number:08x}", seen={"stringing": "good"}, mends=(mend,))
        append_record(club / "evidence/part-soft.jsonl", made, write_whole)
    program("library", "page", "club", "-o", "pages")
    page = parsed(Path("pages/part-soft.html"))
    rows = [[words(cell) for cell in row] for row in page.iter(f"{X}tr")]
    assert ["stringing", "Seen in3 of 6", "How it was3 poor, 3 good", "Share that shows it11 % to 89 %"] in rows
    helped = ["stringing", "Triednozzle.temperature down", "Better1 of 2", "Else1 no difference"]
    assert [*helped, "Share that gets better1 % to 99 %, too few to tell"] in rows
    assert "mended: stringing poor: nozzle.temperature 215 °C → 210 °C; it got better" in words(page)
    assert "What was tried after a print" not in words(parsed(Path("pages/tpu-95a.html")))
    listed = program("evidence", "list", "part-soft", "--library", "club").out
    assert "stringing: nozzle.temperature down: better 1 of 2 (1 no difference): 1 % to 99 %, too few to tell" in listed
    program("library", "page", "club", "-o", "text", "--as", "markdown")
    text = Path("text/part-soft.md").read_text(encoding="utf-8")
    assert "| stringing | nozzle.temperature down | 1 of 2 | 1 no difference | 1 % to 99 %, too few to tell |" in text


def test_long_facts_stand_once_and_rows_name_them_by_number(club: Path, program: Program) -> None:
    other = {"machine.drive": "direct", "spool.hardness": "92 Shore A"}
    append_record(
        club / "evidence/flexible-pla.jsonl",
        record("flexible-pla", "0000000c", facts=other, together={"part-soft": "1.0.0"}, by_hand=("raft.on",)),
        write_whole,
    )
    program("library", "page", "club", "-o", "pages")
    page = parsed(Path("pages/flexible-pla.html"))
    table = next(table for table in page.iter(f"{X}table") if "prints" in str(table.get("class")))
    cells = [words(row[4]).removeprefix("On what") for row in table.iter(f"{X}tr")][1:]
    assert cells == ["machine 1spool 1together with part-soft 1.0.0by hand: raft.on", *["machine 2spool 1"] * 3]
    fold = next(item for item in page.iter(f"{X}details") if item.get("class") == "setups")
    assert [words(item) for item in fold.iter(f"{X}li")] == [
        "machine 1: drive direct",
        "machine 2: drive remote",
        "spool 1: hardness 92 Shore A",
    ]
    program("library", "page", "club", "-o", "pages-md", "--as", "markdown")
    text = Path("pages-md/flexible-pla.md").read_text(encoding="utf-8")
    assert "| adhesion good | machine 2; spool 1 | Print 2 |" in text
    assert text.count("drive remote") == 1


def test_the_terminal_and_the_page_have_the_same_order(club: Path, program: Program) -> None:
    program("library", "page", "club", "-o", "pages")
    page = re.findall(r"Print \d", words(parsed(Path("pages/flexible-pla.html"))))
    listed = re.findall(r"Print \d", program("evidence", "list", "flexible-pla", "--library", "club").out)
    assert page == listed == ["Print 2", "Print 1", "Print 0"]


def test_a_recipe_that_ships_is_marked_on_the_index(
    tmp_path: Path, program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    program("library", "new", "club")
    append_record(tmp_path / "club/evidence/flexible-pla.jsonl", record("flexible-pla", "00000001"), write_whole)
    program("library", "page", "club", "-o", "pages")
    rows = [words(row) for row in parsed(Path("pages/index.html")).iter(f"{X}tr")]
    assert [("ships with Profilesmith" in row) for row in rows if "flexible-pla" in row or "example-gentle" in row] == [
        False,
        True,
    ]
    assert "1 of them shipped with Profilesmith" in words(parsed(Path("pages/index.html")))
    program("library", "page", "club", "-o", "pages-md", "--as", "markdown")
    assert "<code>flexible-pla</code> *(ships with Profilesmith" in Path("pages-md/index.md").read_text(
        encoding="utf-8"
    )


def test_recipe_show_uses_the_pages_phrases(club: Path, program: Program) -> None:
    program("library", "page", "club", "-o", "pages")
    for path in club.glob("*.toml"):
        if path.stem == "library":
            continue
        shown, page = (
            program("recipe", "show", path.stem, "--library", "club").out,
            words(parsed(Path(f"pages/{path.stem}.html"))),
        )
        asked = re.findall(r"^  \d+\. .*?: (.*?)(?:, when .*)?$", shown, re.MULTILINE)
        assert asked
        for text in asked:
            assert text in page
            assert not re.search(r"raise_to|\bcap\b|the answer to|s2|mm3", text)


def test_markdown_says_the_same(club: Path, program: Program) -> None:
    assert program("library", "page", "club", "-o", "pages", "--as", "markdown").code == 0
    index, page = (Path("pages", name).read_text(encoding="utf-8") for name in ("index.md", "flexible-pla.md"))
    assert (
        "| [Flexible PLA from a profile that prints rigid PLA](flexible-pla.md) <code>flexible-pla</code> "
        f"| rigid PLA → flexible PLA | {version('flexible-pla')} | 3 of 3 worked (29 % to 100 %) "
        f"| {cautions('flexible-pla')} |" in index
    )
    for told in (
        "Tried 3 times, worked 3 of 3: at least 29 %",
        f"| 2030-01-31 | {version('flexible-pla')} | **worked** | adhesion good |",
        "7. **Support density**: at least 30 %. A soft part sags",
        "Support density | 14 % | **30 %** | +16 points |",
        "Ventilate the room",
        "[All recipes of shipped](index.md)",
    ):
        assert told in page, told
    html = MarkdownIt("commonmark", {"html": True}).enable("table").render(page)
    assert html.count("<table>") == 2 + 1 + 3


def test_links_are_relative_and_lead_to_pages_that_are_there(club: Path, program: Program) -> None:
    program("library", "page", "club", "-o", "pages")
    files = sorted(Path("pages").glob("*.html"))
    for path in files:
        page = parsed(path)
        ids = {item.get("id") for item in page.iter()}
        for link in page.iter(f"{X}a"):
            target = str(link.get("href"))
            assert target.removeprefix("#") in ids if target.startswith("#") else Path("pages", target).is_file(), (
                target
            )
        assert {item.tag for item in page.iter() if item.get("src") or item.get("action")} == set()
    assert {link.get("href") for link in parsed(Path("pages/index.html")).iter(f"{X}a")} == {
        path.name for path in files
    } - {"index.html"}


def test_the_policy_allows_this_style_and_script_and_nothing_else(club: Path, program: Program) -> None:
    program("library", "page", "club", "-o", "pages")
    for path in Path("pages").glob("*.html"):
        page = parsed(path)
        policy = next(meta.get("content") or "" for meta in page.iter(f"{X}meta") if meta.get("http-equiv"))
        inline = {tag: [item.text or "" for item in page.iter(f"{X}{tag}")] for tag in ("style", "script")}
        hashes = {
            tag: [f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'" for text in texts]
            for tag, texts in inline.items()
        }
        script = " ".join(hashes["script"]) or "'none'"
        assert policy == (
            f"default-src 'none'; style-src {hashes['style'][0]}; script-src {script}; base-uri 'none'; "
            "form-action 'none'"
        )
        assert not [item for item in page.iter() if item.get("style")]


def test_the_same_library_gives_the_same_bytes_anywhere(
    club: Path, program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for form in ("page", "markdown"):
        program("library", "page", "club", "-o", f"one-{form}", "--as", form)
        program("library", "page", str(club), "-o", f"two-{form}", "--as", form)
        monkeypatch.chdir(club)
        program("library", "page", "-o", f"../three-{form}", "--as", form)
        monkeypatch.chdir(tmp_path)
        made = [
            {path.name: path.read_bytes() for path in Path(f"{name}-{form}").iterdir()}
            for name in ("one", "two", "three")
        ]
        assert made[0] == made[1] == made[2]
        assert str(tmp_path).encode() not in b"".join(made[0].values())


def shape(element: Element) -> list[tuple[str, tuple[str, ...]]]:
    return [(item.tag, tuple(sorted(item.keys()))) for item in element.iter()]


def test_strangers_text_makes_no_element_and_no_name(hostile: Path, program: Program) -> None:
    ran = program("library", "page", "hostile", "-o", "pages")
    assert ran.code == 1
    assert "torn" in ran.err
    names = sorted(path.name for path in Path("pages").iterdir() if path.suffix != ".toml")
    assert len({name.casefold() for name in names}) == len(names) == 5
    assert all(re.fullmatch(r"[a-z0-9-]+\.(html|json)", name) for name in names)
    assert "con.html" not in names
    for path in Path("pages").glob("*.html"):
        page = parsed(path)
        assert not [item.tag for item in page.iter(f"{X}img")]
        assert len(list(page.iter(f"{X}script"))) <= 1
        assert "{{7*7}}" in words(page)
        assert not [
            char
            for char in path.read_text(encoding="utf-8")
            if char != "\n" and unicodedata.category(char) in ("Cc", "Cf")
        ]
        assert "\\u202e" in words(page)
    assert "<script>alert(1)</script> [link](http://a.example) | cell" in words(
        parsed(Path(f"pages/{safe_stem('con')}.html"))
    )


def test_a_hostile_page_has_the_shape_of_a_harmless_one(hostile: Path, program: Program) -> None:
    program("library", "page", "hostile", "-o", "pages")
    for path in hostile.rglob("*.toml"):
        path.write_text(path.read_text(encoding="utf-8").replace(quoted(NASTY), "harmless"), encoding="utf-8")
    program("library", "page", "hostile", "-o", "plain")
    assert shape(parsed(Path("pages/slow.html"))) == shape(parsed(Path("plain/slow.html")))


def test_markdown_of_strangers_has_no_link_picture_or_element_of_theirs(hostile: Path, program: Program) -> None:
    program("library", "page", "hostile", "-o", "pages", "--as", "markdown")
    for path in Path("pages").glob("*.md"):
        text = path.read_text(encoding="utf-8")
        assert not [char for char in text if char != "\n" and unicodedata.category(char) in ("Cc", "Cf")]
        tokens = [
            part
            for token in MarkdownIt("commonmark", {"html": True}).enable(["table", "strikethrough"]).parse(text)
            for part in (token.children or [token])
        ]
        links = [str(token.attrs["href"]) for token in tokens if token.type == "link_open"]
        assert all(re.fullmatch(r"[a-z0-9-]+\.md", link) for link in links), links
        assert not [token for token in tokens if token.type == "image"]
        assert {token.content for token in tokens if token.type.startswith("html")} <= {"<code>", "</code>"}


def test_a_library_without_recipes_profiles_or_evidence_is_a_catalogue_too(
    program: Program, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("empty").mkdir()
    Path("empty/library.toml").write_text(LIBRARY.format(name="empty"))
    assert program("library", "page", "empty", "-o", "pages").code == 0
    assert "There is no recipe in this library yet." in words(parsed(Path("pages/index.html")))


def test_a_shipped_recipe_that_was_tried_here_has_its_page(hostile: Path, program: Program) -> None:
    tried(hostile)
    program("library", "page", "hostile", "-o", "pages")
    told = words(parsed(Path("pages/flexible-pla.html")))
    assert "ships with Profilesmith and was tried here" in told
    assert "worked 3 of 3" in told
    assert not Path("pages/part-soft.html").exists()


def test_borrowed_profiles_are_named_as_such(hostile: Path, program: Program) -> None:
    program("library", "page", "hostile", "-o", "pages")
    assert "those that ship with Profilesmith are used" in words(parsed(Path("pages/slow.html")))


def test_a_conflict_and_a_profile_that_cannot_be_read_are_told(club: Path, program: Program) -> None:
    text = (club / "part-soft.toml").read_text(encoding="utf-8")
    more = (
        '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "90 mm/s"\nwhy = "x"\n[[rule]]\n'
        'setting = "outer_wall.speed"\ncap = "20 mm/s"\nwhy = "x"\n'
    )
    (club / "part-soft.toml").write_text(text + more, encoding="utf-8")
    (club / "profiles" / "werkbank.conf").unlink()
    (club / "keymaps" / "spoken-sheet.toml").write_text("format = 1\n")
    assert program("library", "page", str(club), "-o", "pages").code == 0
    told = words(parsed(Path("pages/part-soft.html")))
    assert "cannot both hold" in told
    assert "profiles/werkbank.conf: There is no such file." in told
    assert "keymaps/spoken-sheet.toml" in told
    assert str(club) not in told


def test_evidence_that_cannot_be_read_is_told_and_not_counted(club: Path, program: Program) -> None:
    path = club / "evidence" / "flexible-pla.jsonl"
    path.write_text(path.read_text(encoding="utf-8") + "nonsense <b>\n", encoding="utf-8")
    program("library", "page", "club", "-o", "pages")
    told = words(parsed(Path("pages/flexible-pla.html")))
    assert "Not counted: evidence/flexible-pla.jsonl:4: The line is no JSON object" in told
    assert "worked 3 of 3" in told


def test_no_link_leads_out_of_the_library(club: Path, program: Program, tmp_path: Path) -> None:
    (tmp_path / "secret.toml").write_text(
        (club / "part-soft.toml").read_text(encoding="utf-8").replace("gives way", "is SECRET"), encoding="utf-8"
    )
    (club / "stolen.toml").symlink_to(tmp_path / "secret.toml")
    described = (club / "library.toml").read_text(encoding="utf-8")
    (club / "library.toml").write_text(
        described.replace('keymap = "werkbank"', 'keymap = "../secret"'), encoding="utf-8"
    )
    assert program("library", "page", "club", "-o", "pages").code == 0
    assert not Path("pages/stolen.html").exists()
    assert all("SECRET" not in path.read_text(encoding="utf-8") for path in Path("pages").iterdir())
    assert "There is no key map called '../secret' in the library." in words(parsed(Path("pages/part-soft.html")))


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (("nowhere", "-o", "pages"), "no-folder"),
        ((".", "-o", "pages"), "no-library"),
        (("club", "-o", "none/pages"), "no-folder"),
        (("club", "-o", "club", "--overwrite"), "not-ours"),
        (("club", "-o", "club"), "exists"),
        (("club", "-o", "pages", "--as", "smoke"), "form"),
    ],
)
def test_refused_calls_write_nothing(club: Path, program: Program, call: tuple[str, ...], code: str) -> None:
    before = sorted(path.name for path in club.rglob("*"))
    ran = program("library", "page", *call)
    assert (ran.code, ran.codes) == (2, (code,))
    assert not Path("pages").exists()
    assert sorted(path.name for path in club.rglob("*")) == before


def test_quiet_and_overwrite(club: Path, program: Program) -> None:
    ran = program("library", "page", "club", "-o", "pages", "-q")
    assert (ran.code, ran.out, ran.err) == (0, "", "")
    (club / "tpu-85a.toml").unlink()
    assert program("library", "page", "club", "-o", "pages").codes == ("exists",)
    assert program("library", "page", "club", "-o", "pages", "--overwrite").code == 0
    assert not Path("pages/tpu-85a.html").exists()
