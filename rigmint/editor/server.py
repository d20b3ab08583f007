"""The language server over pygls: takes what the editor tells, asks the session, answers in the protocol's terms.

One thread: a rig is judged once its text has rested for a moment, so that the newest text is the one that is judged.
What fails in a rule or a study is that rule's alone; what fails here is logged, and the server goes on.
"""

from __future__ import annotations

import asyncio
import logging
import os
from collections.abc import Iterable
from importlib.metadata import version
from pathlib import Path

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.uris import from_fs_path, to_fs_path

from rigmint.editor.complete import Sort
from rigmint.editor.judged import Remark
from rigmint.editor.rename import NotRenamed
from rigmint.editor.session import Session
from rigmint.editor.text_lines import ENCODINGS, TextLines
from rigmint.words import Grade

REST = 0.04
"""s for which a text must rest before it is judged."""
_SEVERITY = {
    Grade.THIN: types.DiagnosticSeverity.Warning,
    Grade.TIDY: types.DiagnosticSeverity.Information,
}
"""All that is worse, and faults of files, are errors."""
_KINDS = {
    Sort.KEY: types.CompletionItemKind.Property,
    Sort.NAME: types.CompletionItemKind.Reference,
    Sort.VALUE: types.CompletionItemKind.EnumMember,
}
_WATCHED = ("**/*.part.yaml", "**/*.connectors.yaml", "**/*.protocols.yaml", "**/rigmint.yaml")
_log = logging.getLogger(__name__)


class RigServer(LanguageServer):
    """The server, with its session and the judgings that are due."""

    def __init__(self) -> None:
        super().__init__("rigmint", version("rigmint"), types.TextDocumentSyncKind.Full)
        self.session = Session()
        self._due: dict[Path, asyncio.TimerHandle] = {}

    def judge_soon(self, path: Path) -> None:
        """Judge a text once it has rested, in the place of what was due before."""
        self.judge_no_more(path)
        self._due[path] = asyncio.get_running_loop().call_later(REST, self._judge, path)

    def judge_no_more(self, path: Path) -> None:
        """Forget what is due."""
        due = self._due.pop(path, None)
        if due is not None:
            due.cancel()

    def _judge(self, path: Path) -> None:
        self._due.pop(path, None)
        held = self.session.find(path)
        if held is None:
            return
        try:
            remarks = self.session.judge(path).remarks
        except Exception:
            _log.exception("%s could not be judged, which is a fault of rigmint", path.name)
            return
        self.publish(path, remarks, held.version)
        unrun = self.session.find_unrun_checks(path)
        if unrun is not None:
            self.window_show_message(types.ShowMessageParams(types.MessageType.Info, unrun))
        for other in self.session.list_others(path):
            self.judge_soon(other)

    def publish(self, path: Path, remarks: Iterable[Remark], number: int | None = None) -> None:
        """Send what is to be said of a text, in place of what was said before."""
        lines = self.session.read_lines(path) if self.session.find(path) is not None else TextLines("")
        found = [_write_remark(remark, lines) for remark in remarks]
        params = types.PublishDiagnosticsParams(_uri_of(path), found, version=number)
        self.text_document_publish_diagnostics(params)


def make_server() -> RigServer:
    """A server that waits to be started over its streams."""
    server = RigServer()

    @server.feature(types.INITIALIZE)
    def initialize(ls: RigServer, params: types.InitializeParams) -> None:
        folders = [folder.uri for folder in params.workspace_folders or ()] or [
            uri for uri in (params.root_uri,) if uri
        ]
        ls.session.shelf.open_folders([Path(name) for uri in folders if (name := to_fs_path(uri)) is not None])

    @server.feature(types.INITIALIZED)
    def initialized(ls: RigServer, _params: types.InitializedParams) -> None:
        encoding = ls.server_capabilities.position_encoding
        if encoding in ENCODINGS:
            ls.session.encoding = str(encoding.value if isinstance(encoding, types.PositionEncodingKind) else encoding)
        _watch(ls)

    @server.feature(types.WORKSPACE_DID_CHANGE_WORKSPACE_FOLDERS)
    def change_folders(ls: RigServer, params: types.DidChangeWorkspaceFoldersParams) -> None:
        gone = {to_fs_path(folder.uri) for folder in params.event.removed}
        kept = [folder for folder in ls.session.shelf.folders if os.fspath(folder) not in gone]
        come = [Path(name) for folder in params.event.added if (name := to_fs_path(folder.uri)) is not None]
        ls.session.shelf.open_folders([*kept, *come])

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    def change_files(ls: RigServer, _params: types.DidChangeWatchedFilesParams) -> None:
        for path in ls.session.paths:
            ls.judge_soon(path)

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    def open_text(ls: RigServer, params: types.DidOpenTextDocumentParams) -> None:
        document = params.text_document
        if (path := _path_of(document.uri)) is not None:
            ls.session.hold(path, document.text, document.version)
            ls.judge_soon(path)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    def change_text(ls: RigServer, params: types.DidChangeTextDocumentParams) -> None:
        path = _path_of(params.text_document.uri)
        if path is not None and params.content_changes:
            ls.session.hold(path, params.content_changes[-1].text, params.text_document.version)
            ls.judge_soon(path)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    def close_text(ls: RigServer, params: types.DidCloseTextDocumentParams) -> None:
        if (path := _path_of(params.text_document.uri)) is not None:
            ls.judge_no_more(path)
            ls.session.drop(path)
            ls.publish(path, ())

    @server.feature(
        types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
    )
    def list_actions(ls: RigServer, params: types.CodeActionParams) -> list[types.CodeAction]:
        path = _open_path(ls, params.text_document.uri)
        if path is None:
            return []
        lines = ls.session.read_lines(path)
        actions: list[types.CodeAction] = []
        for remark, fix, proof in ls.session.list_fixes(path, params.range.start.line, params.range.end.line):
            edits = [
                types.TextEdit(_write_range(one.start_offset, one.end_offset, lines), one.text)
                for one in proof.text_edits
            ]
            action = types.CodeAction(fix.says, kind=types.CodeActionKind.QuickFix, is_preferred=not actions)
            action.diagnostics = [_write_remark(remark, lines)]
            action.edit = types.WorkspaceEdit(changes={params.text_document.uri: edits})
            actions.append(action)
        return actions

    @server.feature(
        types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[".", "/", ":", " ", "{", "[", ">"])
    )
    def complete(ls: RigServer, params: types.CompletionParams) -> list[types.CompletionItem]:
        path = _open_path(ls, params.text_document.uri)
        if path is None:
            return []
        lines, at = ls.session.read_lines(path), params.position
        offers, back = ls.session.list_offers(path, at.line, at.character)
        offset = lines.find_offset(at.line, at.character)
        place = _write_range(offset - back, offset, lines)
        return [
            types.CompletionItem(
                label=offer.text.rstrip(": "),
                kind=_KINDS[offer.sort],
                detail=offer.title or None,
                documentation=offer.says or None,
                sort_text=f"{index:05}",
                filter_text=offer.text,
                text_edit=types.TextEdit(place, offer.text),
            )
            for index, offer in enumerate(offers)
        ]

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def hover(ls: RigServer, params: types.HoverParams) -> types.Hover | None:
        path = _open_path(ls, params.text_document.uri)
        told = ls.session.tell_of(path, params.position.line, params.position.character) if path is not None else None
        if told is None or path is None:
            return None
        says, word = told
        content = types.MarkupContent(types.MarkupKind.PlainText, says)
        return types.Hover(content, _write_range(word.start, word.end, ls.session.read_lines(path)))

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def define(ls: RigServer, params: types.DefinitionParams) -> types.Location | None:
        path = _open_path(ls, params.text_document.uri)
        at = params.position
        found = ls.session.find_definition(path, at.line, at.character) if path is not None else None
        if found is None:
            return None
        file, document, offset = found
        return types.Location(
            _uri_of(file), _write_range(offset, offset, TextLines(document.text, ls.session.encoding))
        )

    @server.feature(types.TEXT_DOCUMENT_PREPARE_RENAME)
    def prepare_rename(ls: RigServer, params: types.PrepareRenameParams) -> types.Range | None:
        path = _open_path(ls, params.text_document.uri)
        at = params.position
        found = ls.session.find_renaming(path, at.line, at.character) if path is not None else None
        if found is None or path is None:
            return None
        lines = ls.session.read_lines(path)
        offset = lines.find_offset(at.line, at.character)
        start, end = next(place for place in found.places if place[0] <= offset <= place[1])
        return _write_range(start, end, lines)

    @server.feature(types.TEXT_DOCUMENT_RENAME, types.RenameOptions(prepare_provider=True))
    def rename(ls: RigServer, params: types.RenameParams) -> types.WorkspaceEdit | None:
        path = _open_path(ls, params.text_document.uri)
        at = params.position
        found = ls.session.find_renaming(path, at.line, at.character) if path is not None else None
        if found is None or path is None:
            return None
        try:
            ls.session.rename(path, found, params.new_name)
        except NotRenamed as error:
            ls.window_show_message(types.ShowMessageParams(types.MessageType.Warning, str(error)))
            return None
        lines = ls.session.read_lines(path)
        edits = [types.TextEdit(_write_range(start, end, lines), params.new_name) for start, end in found.places]
        return types.WorkspaceEdit(changes={params.text_document.uri: edits})

    return server


def _watch(ls: RigServer) -> None:
    """Ask to be told when a library's files change, of an editor that can."""
    workspace = ls.client_capabilities.workspace
    watching = workspace.did_change_watched_files if workspace is not None else None
    if watching is None or not watching.dynamic_registration:
        return
    watchers = [types.FileSystemWatcher(pattern) for pattern in _WATCHED]
    options = types.DidChangeWatchedFilesRegistrationOptions(watchers)
    registration = types.Registration("library-files", types.WORKSPACE_DID_CHANGE_WATCHED_FILES, options)
    ls.client_register_capability(types.RegistrationParams([registration]))


def _open_path(ls: RigServer, uri: str) -> Path | None:
    path = _path_of(uri)
    return path if path is not None and ls.session.find(path) is not None else None


def _path_of(uri: str) -> Path | None:
    """The file of a text; None of one that is no file."""
    name = to_fs_path(uri) if uri.startswith("file:") else None
    return Path(name) if name is not None else None


def _uri_of(path: Path) -> str:
    return from_fs_path(os.fspath(path)) or ""


def _write_range(start: int, end: int, lines: TextLines) -> types.Range:
    return types.Range(types.Position(*lines.find_place(start)), types.Position(*lines.find_place(end)))


def _write_remark(remark: Remark, lines: TextLines) -> types.Diagnostic:
    grade = remark.grade
    severity = _SEVERITY.get(grade, types.DiagnosticSeverity.Error) if grade is not None else None
    return types.Diagnostic(
        _write_range(remark.start, remark.end, lines),
        remark.says if grade is None else f"{grade.value}: {remark.says}",
        severity=severity or types.DiagnosticSeverity.Error,
        code=remark.code,
        source="rigmint",
    )
