"""The language server: what rigmint knows of a file, while it is being typed.

`server` speaks the protocol and is the only module that imports pygls; the others answer its questions in plain
records. Nothing outside the folders that the editor has open is read, but for installed packages, and no house checks
are run.
"""
