"""Random circuits of the kind that rigs make: two conductors to everything, sources, diodes, regulators, loads."""

from random import Random

from rigmint.physics.circuit import Cell, Circuit, Diode, Load, LoadKind, Regulator, Resistor


class RandomCircuit:
    """Grows a circuit from a seed. Node 0 is the minus of the first source."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.nodes = 0
        self.resistors: list[Resistor] = []
        self.cells: list[Cell] = []
        self.diodes: list[Diode] = []
        self.loads: list[Load] = []
        self.regulators: list[Regulator] = []

    def add_node(self) -> int:
        """A new node."""
        self.nodes += 1
        return self.nodes - 1

    def add_wire(self, start: int, low: float = 0.005, high: float = 0.2) -> int:
        """A resistor from a node to a new one, which is returned."""
        end = self.add_node()
        self.resistors.append(Resistor(start, end, self.random.uniform(low, high)))
        return end

    def add_cell(self) -> tuple[int, int, float]:
        """A source: its plus, its minus and its volts."""
        minus, plus = self.add_node(), self.add_node()
        volts = self.random.uniform(12.0, 17.0)
        self.cells.append(Cell(plus, minus, volts, self.random.choice((0.0, 0.02, 0.08, 0.2))))
        return plus, minus, volts

    def add_load(self, plus: int, minus: int, volts: float, most: float) -> None:
        """A load of up to `most` watts for a rail of these volts."""
        watts = self.random.uniform(0.0, most)
        kind = self.random.choice(
            (LoadKind.POWER, LoadKind.POWER, LoadKind.POWER, LoadKind.CURRENT, LoadKind.RESISTANCE)
        )
        low = self.random.uniform(0.3, 0.7) * volts
        amount = {
            LoadKind.POWER: watts,
            LoadKind.CURRENT: watts / volts,
            LoadKind.RESISTANCE: volts * volts / max(watts, 1e-3),
        }[kind]
        self.loads.append(Load(plus, minus, kind, amount, low))

    def add_regulator(self, plus: int, minus: int, volts: float) -> tuple[int, float]:
        """A regulator on a rail of these volts: its output and the volts there."""
        output = self.add_node()
        out = self.random.choice((3.3, 5.0, 7.2, 9.0, 24.0))
        low = out + 0.5 if out < volts - 1.0 else 2.0
        limit = self.random.choice((None, None, self.random.uniform(0.3, 3.0)))
        efficiency = self.random.uniform(0.8, 1.0)
        self.regulators.append(Regulator(plus, output, minus, out, low, max_amps=limit, efficiency=efficiency))
        return output, out

    def add_diode(self, anode: int) -> int:
        """A diode from a node to a new one, which is returned."""
        cathode = self.add_node()
        self.diodes.append(Diode(anode, cathode, self.random.choice((0.0, 0.3, 0.4, 0.7))))
        return cathode

    def build(self) -> Circuit:
        """The circuit."""
        return Circuit(
            self.nodes,
            tuple(self.resistors),
            tuple(self.cells),
            tuple(self.diodes),
            tuple(self.loads),
            tuple(self.regulators),
        )


def make_circuit(seed: int, *, most_watts: float = 25.0) -> Circuit:
    """A random circuit: one to three sources, ORed or straight across each other, and up to sixteen branches."""
    grown = RandomCircuit(seed)
    random = grown.random
    plus, minus, volts = grown.add_cell()
    # A rail: plus, minus, volts, and by which regulators it is reached.
    rails: list[tuple[int, int, float, tuple[int, ...]]] = [(grown.add_wire(plus), grown.add_wire(minus), volts, ())]
    for _ in range(random.randrange(3)):
        other_plus, other_minus, _ = grown.add_cell()
        grown.resistors.append(Resistor(other_minus, minus, random.uniform(0.005, 0.05)))
        if random.random() < 0.6:
            other_plus = grown.add_diode(other_plus)
        grown.resistors.append(Resistor(other_plus, rails[0][0], random.uniform(0.01, 0.1)))
    for _ in range(random.randint(3, 16)):
        rail_plus, rail_minus, rail_volts, path = random.choice(rails)
        choice = random.random()
        if choice < 0.25:
            rails.append((grown.add_wire(rail_plus), grown.add_wire(rail_minus), rail_volts, path))
        elif choice < 0.35:
            rails.append((grown.add_diode(rail_plus), grown.add_wire(rail_minus), rail_volts, path))
        elif choice < 0.42:
            returned = grown.add_node()
            grown.diodes.append(Diode(returned, rail_minus, 0.3))
            grown.add_load(grown.add_wire(rail_plus), returned, rail_volts, most_watts)
        elif choice < 0.6:
            output, out = grown.add_regulator(rail_plus, rail_minus, rail_volts)
            rails.append((output, rail_minus, out, (*path, output)))
            grown.add_load(output, rail_minus, out, most_watts / 3.0)
        elif choice < 0.66 and len(rails) > 1:
            # A second path between two rails of one voltage: a ring, or two regulators side by side, but no
            # regulator that feeds itself.
            same = [rail for rail in rails if rail[2] == rail_volts and not _is_upstream(rail[3], path)]
            other = random.choice(same)
            grown.resistors.append(Resistor(rail_plus, other[0], random.uniform(0.02, 0.5)))
        else:
            grown.add_load(grown.add_wire(rail_plus), grown.add_wire(rail_minus), rail_volts, most_watts)
    return grown.build()


def _is_upstream(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    """Whether of two rails, reached by these regulators, one feeds the other through a regulator."""
    shorter = min(len(one), len(other))
    return one != other and one[:shorter] == other[:shorter]
