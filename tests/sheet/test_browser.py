"""The sheet in a real browser: quiet, no requests, by mouse and by keyboard, on a phone, on paper, for everybody."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from tests.sheet.pages import RIGS, write_hostile_sheet, write_sheet

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

TWO_UP = next(path for path in RIGS if "saltmarsh" in path.name)
PHONE = {"width": 390, "height": 800}


def open_page(browser: Browser, sheet: Path, **options: Any) -> tuple[Page, list[str]]:
    """The page, and what it said on the console or asked for besides itself."""
    page = browser.new_page(**options)
    heard: list[str] = []
    page.on("console", lambda message: heard.append(f"console: {message.text}"))
    page.on("pageerror", lambda error: heard.append(f"error: {error}"))
    page.on("request", lambda request: heard.append(request.url) if request.url != sheet.as_uri() else None)
    page.on("dialog", lambda dialog: heard.append(f"dialog: {dialog.message}"))
    page.goto(sheet.as_uri())
    return page, heard


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """The sheet of a rig with two setups."""
    page, heard = open_page(browser, write_sheet(TWO_UP))
    yield page
    page.close()
    assert heard == []


@pytest.mark.parametrize("sheet", [*RIGS, None], ids=lambda path: path.name if path else "hostile")
def test_no_sound_no_request_and_no_sideways_scroll_on_a_phone(browser: Browser, sheet: Path | None) -> None:
    page, heard = open_page(browser, write_sheet(sheet) if sheet else write_hostile_sheet(), viewport=PHONE)
    width = page.evaluate("document.documentElement.scrollWidth")
    page.close()

    assert heard == []
    assert width <= PHONE["width"]


def count_shown(page: Page, where: str) -> int:
    return sum(one.is_visible() for one in page.locator(where).all())


def test_choosing_a_setup_by_mouse_leaves_that_one(page: Page) -> None:
    assert count_shown(page, "#card .setup") == 2
    page.get_by_role("radio", name="solo").check()

    assert page.locator("#card .setup:visible h2").all_inner_texts() == ["solo"]
    assert page.locator("svg [data-item='mon_ac']").first.evaluate("node => node.closest('.rd-aside') !== null")


def test_choosing_a_setup_by_keyboard(page: Page) -> None:
    page.get_by_role("radio", name="all").focus()
    page.keyboard.press("ArrowDown")

    assert page.locator("#card .setup:visible h2").all_inner_texts() == ["two_up"]


def test_search_by_label_finds_its_devices_and_enter_goes_there(page: Page) -> None:
    page.get_by_label("Label or device").fill("P4")
    shown = page.locator("#devices .device:visible h3").all_inner_texts()
    page.keyboard.press("Enter")

    assert [text.split()[0] for text in shown] == ["breakout", "sender"]
    assert page.evaluate("document.activeElement.id") == "device-breakout"


def test_pointing_at_a_lead_lights_its_path(page: Page) -> None:
    page.locator("#pull tr[data-lights='P2']").hover()

    assert page.locator("svg [data-lead='P2'].lit").count() > 0
    assert page.locator("svg [data-lead='P3'].lit").count() == 0


def test_focus_lights_a_device_and_escape_puts_it_out(page: Page) -> None:
    page.locator("#device-sender").focus()
    lit = page.locator("svg [data-item='sender'].lit").count()
    page.keyboard.press("Escape")

    assert lit > 0
    assert page.locator(".lit").count() == 0


def test_without_script_everything_is_there(browser: Browser) -> None:
    page, heard = open_page(browser, write_sheet(TWO_UP), java_script_enabled=False)
    shown = count_shown(page, "main > section")
    setups = count_shown(page, "#card .setup")
    page.close()

    assert (shown, setups, heard) == (12, 2, [])


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_on_paper_each_section_starts_a_page_and_nothing_is_cut(browser: Browser, size: str, tmp_path: Path) -> None:
    """Headings come to paper whole and in order; the list of devices is for the phone alone."""
    pypdf = pytest.importorskip("pypdf")
    page, _ = open_page(browser, write_sheet(TWO_UP))
    page.pdf(path=tmp_path / "sheet.pdf", format=size)
    page.close()
    texts = [sheet.extract_text() for sheet in pypdf.PdfReader(tmp_path / "sheet.pdf").pages]

    heads = (
        "Meter and plug",
        "Switch on",
        "Settings",
        "Live change",
        "If this fails",
        "Drawings",
        "Pull list",
        "Power",
    )
    starts = [next(index for index, text in enumerate(texts) if text.strip().startswith(head)) for head in heads]
    assert starts == sorted(set(starts))
    assert "Prepared by" in texts[0]
    assert not any("Device by device" in text for text in texts)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", [TWO_UP, RIGS[0]], ids=lambda path: path.name)
def test_nothing_bars_anybody(browser: Browser, axe: str, path: Path, scheme: str) -> None:
    """axe-core, all its rules."""
    page = browser.new_page(bypass_csp=True, color_scheme=scheme)
    page.goto(write_sheet(path).as_uri())
    page.evaluate(axe)
    found = page.evaluate("axe.run()")
    page.close()

    told = [(one["id"], [node["target"] for node in one["nodes"]][:3]) for one in found["violations"]]
    assert told == []
