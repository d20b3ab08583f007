"""The server, driven by a real client: findings while typing, fixes, completion, hover, definition, renaming."""

from __future__ import annotations

from pathlib import Path

from lsprotocol import types

from tests.editor.conversation import Editor, apply, converse, copy_examples

RIG = "saltmarsh-two-up.rig.yaml"


def find_place(text: str, word: str, skip: int = 0) -> tuple[int, int]:
    """Line and column, from 0, just behind `skip` letters of the only or first place of a word."""
    before = text[: text.index(word) + skip]
    return before.count("\n"), len(before.rpartition("\n")[2])


def test_fault_finding_fix_and_gone(tmp_path: Path) -> None:
    library = copy_examples(tmp_path)
    rig = library / "rigs" / RIG
    sound = rig.read_text()
    faulty = sound.replace("head.follow_pan: off", "head.follow_pan: on", 1)
    assert faulty != sound

    async def talk() -> None:
        editor = Editor(library)
        await editor.start()
        editor.open(rig, sound)
        assert await editor.read(rig) == []
        editor.type(rig, faulty)
        found = await editor.read(rig)
        assert found
        worst = found[0]
        assert worst.source == "rigmint"
        assert worst.severity is types.DiagnosticSeverity.Error
        assert faulty.splitlines()[worst.range.start.line].strip().startswith("head.follow_pan: on")
        actions = await editor.list_actions(rig, worst)
        assert actions
        assert actions[0].edit is not None
        changes = (actions[0].edit.changes or {})[rig.as_uri()]
        mended = apply(faulty, list(changes))
        editor.type(rig, mended)
        assert worst.code not in [one.code for one in await editor.read(rig)]
        assert await editor.stop() == 0

    converse(talk)


def test_completion_hover_definition_and_renaming(tmp_path: Path) -> None:
    library = copy_examples(tmp_path)
    rig = library / "rigs" / RIG
    text = rig.read_text()

    async def talk() -> None:
        editor = Editor(library)
        await editor.start()
        editor.open(rig, text)
        await editor.read(rig)

        half = text + "  P99: {from: plate.\n"  # the leads are not the last section: completion goes by what is above
        line = text.splitlines().index("leads:")
        typed = "\n".join([*text.splitlines()[: line + 1], "  P99: {from: plate.", *text.splitlines()[line + 1 :]])
        assert half != typed
        editor.type(rig, typed)
        document, at = editor.at(rig, line + 1, len("  P99: {from: plate."))
        offers = await editor.client.text_document_completion_async(types.CompletionParams(document, at))
        assert isinstance(offers, list)
        labels = [offer.label for offer in offers]
        assert "plate.tap_1" in labels
        assert all(label.startswith("plate.") for label in labels)

        editor.type(rig, text)
        await editor.read(rig)
        document, at = editor.at(rig, *find_place(text, "camera.dc_in", 9))
        hover = await editor.client.text_document_hover_async(types.HoverParams(document, at))
        assert hover is not None
        assert isinstance(hover.contents, types.MarkupContent)
        for word in ("V full", "V typical", "V change", "two_up:"):
            assert word in hover.contents.value
        document, at = editor.at(rig, *find_place(text, "lens.focus", 6))
        hover = await editor.client.text_document_hover_async(types.HoverParams(document, at))
        assert hover is not None
        assert isinstance(hover.contents, types.MarkupContent)
        assert "first_ac, hand.knob" in hover.contents.value

        document, at = editor.at(rig, *find_place(text, "generic/lens-anamorphic", 4))
        there = await editor.client.text_document_definition_async(types.DefinitionParams(document, at))
        assert isinstance(there, types.Location)
        file = Path(there.uri.removeprefix("file://"))
        assert file.name == "lenses.part.yaml"
        assert "generic/lens-anamorphic" in file.read_text().splitlines()[there.range.start.line]

        document, at = editor.at(rig, *find_place(text, "head.follow_pan", 2))
        edit = await editor.client.text_document_rename_async(types.RenameParams(document, at, "gimbal"))
        assert edit is not None
        renamed = apply(text, list((edit.changes or {})[rig.as_uri()]))
        assert "gimbal.follow_pan" in renamed
        assert "driver.head" in renamed  # a port of another item
        editor.type(rig, renamed)
        assert await editor.read(rig) == []
        edit = await editor.client.text_document_rename_async(types.RenameParams(document, at, "camera"))
        assert edit is None
        assert any("`camera` is taken" in message for message in editor.messages)
        await editor.stop()

    converse(talk)


def test_part_files_and_libraries(tmp_path: Path) -> None:
    library = copy_examples(tmp_path)
    part = sorted((library / "parts").rglob("*.part.yaml"))[0]
    text = part.read_text()

    async def talk() -> None:
        editor = Editor(library)
        await editor.start()
        editor.open(part, text)
        assert await editor.read(part) == []
        editor.type(part, text + "\nblue: 1\n")
        found = await editor.read(part)
        assert [one.code for one in found] == ["file:unknown-key"]
        editor.open(library / "rigmint.yaml", "rigmint_library: 1\nparst: [parts]\n")
        found = await editor.read(library / "rigmint.yaml")
        assert "parts" in found[0].message
        await editor.stop()

    converse(talk)


def test_house_checks_are_told_of_and_not_run(tmp_path: Path) -> None:
    library = copy_examples(tmp_path)
    trace = tmp_path / "it-ran"
    (library / "checks.py").write_text(f"open({str(trace)!r}, 'w').close()\nRULES = ()\n")
    file = library / "rigmint.yaml"
    file.write_text(file.read_text() + "\nhouse: {checks: [checks.py]}\n")
    rig = library / "rigs" / RIG

    async def talk() -> None:
        editor = Editor(library)
        await editor.start()
        for number in range(3):
            text = rig.read_text() + f"# {number}\n"
            if number == 0:
                editor.open(rig, text)
            else:
                editor.type(rig, text)
            assert await editor.read(rig) == []
        await editor.stop()
        assert len([message for message in editor.messages if "house checks" in message]) == 1

    converse(talk)
    assert not trace.exists()
