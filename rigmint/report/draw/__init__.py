"""Drawings: what is drawn (`sketch*`), where it goes (`layout` and what it calls), and the SVG (`svg*`).

Items are plain boxes in columns, from where power or signals come to where they go, and in rows by what they ride on.
Ports are nubs on the edges of a box. Between two columns lies a gutter in which leads change height, each in a lane of
its own; a lead that goes further passes each column in a lane between the boxes. Each end of a lead bears a flag with
its label, pointed where power or signals arrive.
"""
