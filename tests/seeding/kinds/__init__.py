"""The mistakes: each kind is a function from a rig's tree to the places at which it can be made."""
