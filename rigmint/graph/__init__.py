"""The connection graph of a rig in a setup and its views: contacts and nets, signal connections, the whole graph."""
