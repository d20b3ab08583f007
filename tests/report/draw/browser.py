"""What a real browser makes of a drawing: texts that leave their box or flag, or lie on each other."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")

_SCRIPT = """
const found = [];
const near = 0.75;
const box = one => one.getBoundingClientRect();
const inside = (a, b) => a.left >= b.left - near && a.right <= b.right + near && a.top >= b.top - near
  && a.bottom <= b.bottom + near;
const says = one => one.textContent.slice(0, 40);
const texts = [...document.querySelectorAll('svg text')].filter(one => one.textContent.trim());
const boxes = texts.map(box);
texts.forEach((one, i) => {
  const item = one.closest('.rd-item'), flag = one.closest('.rd-flags');
  const held = item ? item.querySelector('.rd-box') : flag ? flag.querySelector('.rd-flag') : one.closest('svg');
  const width = one.closest('.rd-band') ? null : box(held);
  if (width && !inside(boxes[i], width)) found.push(`"${says(one)}" leaves ${held.getAttribute('class')}`);
  if (!inside(boxes[i], box(one.closest('svg')))) found.push(`"${says(one)}" leaves the drawing`);
});
for (let i = 0; i < texts.length; i++) for (let j = i + 1; j < texts.length; j++) {
  const a = boxes[i], b = boxes[j];
  if (a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 3.5 && b.top < a.bottom - 3.5)
    found.push(`"${says(texts[i])}" lies on "${says(texts[j])}"`);
}
document.querySelector('pre').textContent = JSON.stringify({texts: texts.length, found});
"""


def measure_texts(drawings: Sequence[str], folder: Path, font: str) -> tuple[int, list[str]]:
    """How many texts the browser drew, and what is wrong with them, in a given face."""
    styled = "".join(re.sub(r"font-family:[^;]*;", f"font-family:'{font}';", svg) for svg in drawings)
    page = folder / "page.html"
    page.write_text(
        f"<!doctype html><meta charset=utf-8><body style='margin:0'>{styled.replace('max-width:100%', '')}<pre></pre>"
        f"<script>{_SCRIPT}</script>",
        encoding="utf-8",
    )
    run = subprocess.run(
        [
            CHROMIUM or "chromium",
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            f"--user-data-dir={folder / 'profile'}",
            "--dump-dom",
            page.as_uri(),
        ],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=True,
    )
    told = re.search(r"<pre>(.*?)</pre>", run.stdout, re.DOTALL)
    assert told is not None, run.stderr[-500:]
    result = json.loads(html.unescape(told[1]))
    return result["texts"], result["found"]
