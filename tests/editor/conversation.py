"""An editor's side of a conversation with the server, over pygls' own client, and a library to talk about."""

from __future__ import annotations

import asyncio
import shutil
import sys
import time
from collections.abc import Awaitable, Callable
from pathlib import Path

from lsprotocol import types
from pygls.lsp.client import LanguageClient

EXAMPLES = Path(__file__).parents[2] / "examples"
_START = "from rigmint.commands.entry import main; main()"
_PATIENCE = 20.0


class Editor:
    """An editor that has a folder open."""

    def __init__(self, folder: Path, prelude: str = "") -> None:
        """`prelude`: Python that the server's process runs first."""
        self.folder = folder
        self.client = LanguageClient("an-editor", "1")
        self.messages: list[str] = []
        self._prelude = prelude
        self._found: dict[str, tuple[int | None, list[types.Diagnostic]]] = {}
        self._versions: dict[str, int] = {}
        self._news = asyncio.Event()

        @self.client.feature(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
        def take(params: types.PublishDiagnosticsParams) -> None:
            self._found[params.uri] = params.version, list(params.diagnostics)
            self._news.set()

        @self.client.feature(types.WINDOW_SHOW_MESSAGE)
        def show(params: types.ShowMessageParams) -> None:
            self.messages.append(params.message)

    async def start(self, encodings: list[types.PositionEncodingKind] | None = None) -> None:
        """Start the server and shake hands."""
        await self.client.start_io(sys.executable, "-c", f"{self._prelude}\n{_START}", "editor")
        general = types.GeneralClientCapabilities(position_encodings=encodings) if encodings else None
        folders = [types.WorkspaceFolder(self.folder.as_uri(), self.folder.name)]
        params = types.InitializeParams(types.ClientCapabilities(general=general), workspace_folders=folders)
        await self.client.initialize_async(params)
        self.client.initialized(types.InitializedParams())

    async def stop(self) -> int | None:
        """Say goodbye; the status of the server's process."""
        await self.client.shutdown_async(None)
        self.client.exit(None)
        server = self.client._server
        assert server is not None
        return await asyncio.wait_for(server.wait(), _PATIENCE)

    def open(self, path: Path, text: str) -> None:
        """Open a text, and do not wait."""
        uri = path.as_uri()
        self._versions[uri] = 1
        document = types.TextDocumentItem(uri, "yaml", 1, text)
        self.client.text_document_did_open(types.DidOpenTextDocumentParams(document))

    def type(self, path: Path, text: str) -> None:
        """Change an open text, and do not wait."""
        uri = path.as_uri()
        self._versions[uri] += 1
        document = types.VersionedTextDocumentIdentifier(self._versions[uri], uri)
        whole = types.TextDocumentContentChangeWholeDocument(text)
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(document, [whole]))

    async def read(self, path: Path) -> list[types.Diagnostic]:
        """What is said of the newest text, once it is said."""
        uri = path.as_uri()
        until = time.monotonic() + _PATIENCE
        while self._found.get(uri, (None, []))[0] != self._versions[uri]:
            self._news.clear()
            await asyncio.wait_for(self._news.wait(), max(until - time.monotonic(), 0.01))
        return self._found[uri][1]

    async def list_actions(self, path: Path, found: types.Diagnostic) -> list[types.CodeAction]:
        """The fixes that are offered for something."""
        context = types.CodeActionContext([found])
        params = types.CodeActionParams(types.TextDocumentIdentifier(path.as_uri()), found.range, context)
        answer = await self.client.text_document_code_action_async(params)
        return [one for one in answer or () if isinstance(one, types.CodeAction)]

    def at(self, path: Path, line: int, column: int) -> tuple[types.TextDocumentIdentifier, types.Position]:
        """A place, as requests name it."""
        return types.TextDocumentIdentifier(path.as_uri()), types.Position(line, column)


def apply(text: str, edits: list[types.TextEdit]) -> str:
    """The text with edits whose columns are ASCII alone."""
    lines = text.splitlines(keepends=True)
    starts = [sum(len(line) for line in lines[:index]) for index in range(len(lines) + 1)]
    for edit in sorted(edits, key=lambda one: (one.range.start.line, one.range.start.character), reverse=True):
        start = starts[edit.range.start.line] + edit.range.start.character
        end = starts[edit.range.end.line] + edit.range.end.character
        text = text[:start] + edit.new_text + text[end:]
    return text


def copy_examples(folder: Path) -> Path:
    """The example library in a folder of its own: its rigs and parts."""
    library = folder / "library"
    library.mkdir(parents=True)
    for name in ("rigs", "parts"):
        shutil.copytree(EXAMPLES / name, library / name)
    shutil.copy(EXAMPLES / "rigmint.yaml", library)
    return library


def converse(talk: Callable[[], Awaitable[None]]) -> None:
    """Run a conversation to its end."""
    asyncio.run(asyncio.wait_for(_await(talk), 120))


async def _await(talk: Callable[[], Awaitable[None]]) -> None:
    await talk()
