"""The same page on paper sizes, by a library that comes with an extra."""

from __future__ import annotations

import logging


class NoPdf(Exception):
    """The extra is not installed; the message says how it is."""


def print_pdf(page: str) -> bytes:
    """The page as PDF. Nothing is fetched: the page names nothing outside itself. Raises NoPdf."""
    try:
        from weasyprint import HTML
    except (ImportError, OSError) as error:
        msg = "PDF needs an extra: pip install 'rigmint[pdf]' (and the library pango, from the system)"
        raise NoPdf(msg) from error
    logging.getLogger("weasyprint").setLevel(logging.ERROR)  # it tells of rules that are for screens
    return bytes(HTML(string=page, url_fetcher=_refuse).write_pdf())


def _refuse(url: str, *_: object, **__: object) -> dict[str, object]:
    msg = f"the sheet fetches nothing, and was asked for {url}"
    raise ValueError(msg)
