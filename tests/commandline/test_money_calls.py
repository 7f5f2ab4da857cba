"""Money by calls: prices come in, the report adds up, the list goes out, what is up is planned anew."""

import csv
import io
import json
from pathlib import Path
from typing import Any

from msgspec.structs import replace
from pypdf import PdfReader

from composer.projectfile import store
from composer.projectfile.shopping_table import read_paid
from tests.commandline.conftest import Call
from tests.paper.money_projects import eleven
from tests.rehang.walls import nail, wall_of

FRAMES = """name,width,height,face,lip,glazing,weight,hanger,price,count
Frame,30 cm,40 cm,30 mm,6 mm,acrylic,800 g,strips,3.50,7
Long,30 cm,50 cm,30 mm,6 mm,acrylic,800 g,strips,3.50,1
"""
"""Eight frames at 3.50: seven on two pairs, one on four (a side over 450 mm), 18 pairs of medium strips."""

PRICES = """item,each,pack,in-drawer
strips-medium,11.40,12,1
11x14in,2.70,,
12x18in,2.70,,
"""
"""A glass of 252 × 352 mm takes 11 × 14 in, one of 252 × 452 mm takes 12 × 18 in (304.8 × 457.2)."""


def made(tmp_path: Path, call: Call) -> Path:
    frames, prices, file = tmp_path / "frames.csv", tmp_path / "prices.csv", tmp_path / "home.wallwright"
    frames.write_text(FRAMES, encoding="utf-8")
    prices.write_text(PRICES, encoding="utf-8")
    assert call("new", file, "--wall-width", "360cm", "--wall-height", "2.5m", "--pieces", frames).code == 0
    assert call("add", file, "prices", prices).code == 0
    return file


def costs(file: Path, call: Call) -> dict[str, Any]:
    answer = call("report", file)
    assert answer.code == 0
    found: dict[str, Any] = json.loads(answer.out)["costs"]
    return found


def test_the_report_of_eight_frames_adds_up(tmp_path: Path, call: Call) -> None:
    """By hand: 8 · 3.50 + 8 · 2.70 + 2 packs · 11.40 = 28.00 + 21.60 + 22.80 = 72.40; used 72.40 − 22.80 + 16.15."""
    found = costs(made(tmp_path, call), call)
    assert list(found) == ["total", "used", "lines"]
    assert (found["total"], found["used"]) == (72.4, 65.75)
    assert {tuple(line) for line in found["lines"]} == {("what", "each", "packs", "used", "left_over", "cost")}
    by_item = {line["what"]: line for line in found["lines"]}
    assert by_item["strips-medium"] == {
        "what": "strips-medium", "each": 11.4, "packs": 2, "used": 16.15, "left_over": 7, "cost": 22.8,
    }  # fmt: skip
    assert by_item["frame"]["cost"] == 28
    assert round(sum(line["cost"] for line in found["lines"]), 2) == found["total"]


def test_a_piece_costs_what_it_uses_up(tmp_path: Path, call: Call) -> None:
    """By hand: 3.50 + 2.70 + 2 of 18 pairs: 16.15 · 2 / 18 = 1.79, together 7.99 (7.9944…)."""
    report = json.loads(call("report", made(tmp_path, call)).out)
    assert report["floor"][0]["cost"] == 7.99
    assert list(report["floor"][0])[-1] == "cost"


def test_prices_of_an_item_come_anew_as_a_whole(tmp_path: Path, call: Call) -> None:
    file, more = made(tmp_path, call), tmp_path / "more.csv"
    more.write_text("item,each,pack\nstrips-medium,4.00,4\nstrips-medium,10.00,12\n", encoding="utf-8")
    assert call("add", file, "prices", more).code == 0
    lines = [line for line in costs(file, call)["lines"] if line["what"] == "strips-medium"]
    # 17 pairs: one of 12 and two of 4 (20) at 18.00; two of 12 cost 20.00, five of 4 as much.
    assert [(line["each"], line["packs"], line["cost"]) for line in lines] == [(10, 1, 10), (4, 2, 8)]
    assert lines[-1]["left_over"] == 3


def test_the_templates_paper_is_counted_where_it_has_a_price(tmp_path: Path, call: Call) -> None:
    """On the list and in the report alike: as many sheets as the templates have pages, in whole packs."""
    file, more = made(tmp_path, call), tmp_path / "more.csv"
    more.write_text("item,each,pack\npaper,4.00,100\n", encoding="utf-8")
    assert call("add", file, "prices", more).code == 0
    assert call("paper", file, "templates", "-o", tmp_path / "t.pdf").code == 0
    pages = len(PdfReader(tmp_path / "t.pdf").pages)
    (line,) = [line for line in costs(file, call)["lines"] if line["what"] == "paper"]
    assert (line["packs"], line["cost"], line["left_over"]) == (1, 4, 100 - pages)
    assert line["used"] == round(4 * pages / 100, 2)


def test_what_has_no_price_is_named(tmp_path: Path, call: Call) -> None:
    file = tmp_path / "home.wallwright"
    frames = tmp_path / "frames.csv"
    frames.write_text(FRAMES, encoding="utf-8")
    call("new", file, "--wall-width", "360cm", "--wall-height", "2.5m", "--pieces", frames)
    unpriced = {one["what"]: one["need"] for one in json.loads(call("report", file, "--more").out)["unpriced"]}
    assert unpriced == {"11x14in": 7, "12x18in": 1, "strips-medium": 18}


def test_over_the_budget_is_told_by_check(tmp_path: Path, call: Call) -> None:
    file = made(tmp_path, call)
    assert call("set", file, "budget=72.39").code == 0
    assert "warn over-budget" in call("check", file).out
    assert call("set", file, "budget=72.40").code == 0
    assert "over-budget" not in call("check", file).out


def test_the_list_is_a_pdf_or_a_table_that_can_be_filled_in(tmp_path: Path, call: Call) -> None:
    file = made(tmp_path, call)
    sheet, table = tmp_path / "list.pdf", tmp_path / "list.csv"
    assert call("paper", file, "shopping", "-o", sheet) == (0, "", "")
    assert sheet.read_bytes().startswith(b"%PDF-")
    assert call("paper", file, "shopping", "-o", table) == (0, "", "")
    assert table.read_bytes().startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(io.StringIO(table.read_bytes().decode("utf-8-sig"), newline="")))
    strips = next(row for row in rows if row["item"] == "strips-medium")
    assert (strips["packs"], strips["pack"], strips["to-pay"], strips["used-up"]) == ("2", "12", "22.80", "16.15")
    assert strips["in-drawer"] == "1"
    strips["paid"] = "21,90"
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, rows[0])
    writer.writeheader()
    writer.writerows(rows)
    table.write_text(text.getvalue(), encoding="utf-8")
    (paid,) = read_paid(table)
    assert (paid.item, str(paid.amount)) == ("strips-medium", "21.90")
    assert call("paper", file, "measure", "-o", table).code == 2


def test_nothing_to_buy_is_a_no(tmp_path: Path, call: Call) -> None:
    ready = replace(nail(1, 300, 250, 20), hardware=None, stage="ready")
    file = tmp_path / "home.wallwright"
    store.save(file, wall_of([ready], {1: (500.0, 1300.0)}))
    answer = call("paper", file, "shopping", "-o", tmp_path / "list.pdf")
    assert (answer.code, answer.out) == (1, "")
    assert "nothing to buy" in answer.err
    assert not (tmp_path / "list.pdf").exists()


def test_a_rehang_is_planned_on_paper_and_reported(tmp_path: Path, call: Call) -> None:
    file = tmp_path / "home.wallwright"
    store.save(file, eleven())
    assert call("paper", file, "rehang", "-o", tmp_path / "plan.pdf") == (0, "", "")
    # A script that reads the report finds what it always found; the plan comes when asked for, at the end.
    usual, more = (json.loads(call("report", file, *options).out) for options in ((), ("--more",)))
    assert list(more) == [*usual, "unpriced", "rehang"]
    assert {key: more[key] for key in usual} == usual
    (plan,) = more["rehang"]
    assert (plan["used_again"], plan["new_holes"], plan["strips_lost"]) == (8, 3, 0)
    assert [act["do"] for act in plan["work"]] == ["down", "up", "up", "move", "up"]
    assert call("paper", file, "rehang", "-o", tmp_path / "out.pdf", "--arrangement", "winter").code == 0


def test_nothing_up_is_a_no(tmp_path: Path, call: Call) -> None:
    file = made(tmp_path, call)
    answer = call("paper", file, "rehang", "-o", tmp_path / "plan.pdf")
    assert answer.code == 1
    assert "Nothing is recorded as up" in answer.err
    assert json.loads(call("report", file, "--more").out)["rehang"] == []
