"""Who works on what: whatever happens in whatever order, nothing is lost, doubled or begun again without need.

The properties are those that runners promise; they are checked against a plain record of what happened, kept here.
"""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from gamutwright.jobs.roster import ATTEMPTS, LATE_TIMES, Assignment, Begin, GiveUp, Instruction, Lost, Roster, Task

WORKERS = ("a", "b", "c")


class Record:
    """What happened, told by nothing but the instructions."""

    def __init__(self, costs: list[float], late_after_s: float | None) -> None:
        self.tasks = {str(index): Task(str(index), cost) for index, cost in enumerate(costs)}
        self.late_after_s = late_after_s
        self.roster = Roster(self.tasks.values(), late_after_s)
        self.hands: dict[str, int] = {}
        self.held: dict[Assignment, float] = {}
        self.deaths: Counter[str] = Counter()
        self.begun: Counter[str] = Counter()
        self.over: list[str] = []
        self.order: list[str] = []
        self.given_up: list[str] = []
        self.now_s = 0.0

    def obey(self, instructions: list[Instruction]) -> None:
        for instruction in instructions:
            if isinstance(instruction, Begin):
                what = instruction.what
                others = [held for held in self.held if held.key == what.key]
                assert what.key not in self.over, "what ended is begun again"
                assert what.attempt == self.begun[what.key] + 1
                if others:
                    assert self.late_after_s is not None
                    assert [held.worker != what.worker for held in others] == [True], "two workers at most"
                    assert instruction.late_s > self.late_after_s
                    assert instruction.late_s == self.now_s - self.held[others[0]]
                    assert not self.waiting(), "what waits comes first"
                else:
                    assert instruction.late_s == 0
                self.begun[what.key] += 1
                self.order.append(what.key)
                self.held[what] = self.now_s
            elif isinstance(instruction, GiveUp):
                assert self.deaths[instruction.key] == instruction.deaths >= ATTEMPTS
                assert not any(held.key == instruction.key for held in self.held)
                self.over.append(instruction.key)
                self.given_up.append(instruction.key)
            else:
                assert instruction.what not in self.held
                assert instruction.is_elsewhere == any(held.key == instruction.what.key for held in self.held)
        self.check()

    def waiting(self) -> set[str]:
        return set(self.tasks) - set(self.over) - {held.key for held in self.held}

    def check(self) -> None:
        busy = Counter(held.worker for held in self.held)
        assert all(busy[name] <= hands for name, hands in self.hands.items()), "more than its hands hold"
        assert set(busy) <= set(self.hands), "work for one who is not there"
        assert not self.waiting() or sum(busy.values()) == sum(self.hands.values()), "hands are free and work waits"
        assert len(set(self.over)) == len(self.over) == self.roster.done
        assert self.roster.is_over == (len(self.over) == len(self.tasks))
        assert set(self.roster.under_way) == set(self.held)

    def join(self, worker: str, hands: int) -> None:
        self.hands[worker] = hands
        self.obey(self.roster.joined(worker, hands, self.now_s))

    def leave(self, *workers: str, is_blamed: bool) -> None:
        for worker in workers:
            del self.hands[worker]
        for what in [what for what in self.held if what.worker in workers]:
            del self.held[what]
            self.deaths[what.key] += is_blamed and what.key not in self.over
        self.obey(self.roster.left(*workers, now_s=self.now_s, is_blamed=is_blamed))

    def end(self, what: Assignment) -> None:
        del self.held[what]
        is_first = what.key not in self.over
        counts, instructions = self.roster.ended(what, self.now_s)
        assert counts == is_first, "the first result counts, and no other"
        if counts:
            self.over.append(what.key)
        self.obey(instructions)

    def drop(self, what: Assignment) -> None:
        del self.held[what]
        self.deaths[what.key] += what.key not in self.over
        self.obey(self.roster.dropped(what, self.now_s))


@given(st.data())
def test_nothing_is_lost_doubled_or_left_lying(data: st.DataObject):
    costs = data.draw(st.lists(st.sampled_from([0.1, 1.0, 5.0]), max_size=8))
    record = Record(costs, data.draw(st.sampled_from([None, 0.0, 2.0])))
    for _ in range(data.draw(st.integers(0, 40))):
        absent = [name for name in WORKERS if name not in record.hands]
        steps = (
            ["pass"] + ["join"] * bool(absent) + ["leave"] * bool(record.hands) + ["end", "drop"] * bool(record.held)
        )
        step = data.draw(st.sampled_from(steps))
        if step == "join":
            record.join(data.draw(st.sampled_from(absent)), data.draw(st.integers(1, 3)))
        elif step == "leave":
            leavers = data.draw(st.sets(st.sampled_from(sorted(record.hands)), min_size=1))
            record.leave(*sorted(leavers), is_blamed=data.draw(st.booleans()))
        elif step == "pass":
            record.now_s += data.draw(st.sampled_from([0.5, 3.0]))
            record.obey(record.roster.passed(record.now_s))
        else:
            what = data.draw(st.sampled_from(sorted(record.held, key=str)))
            (record.end if step == "end" else record.drop)(what)
    # From here on nothing goes wrong any more: everything must end, with no death more than there was.
    if not record.hands:
        record.join("a", 1)
    while record.held:
        record.end(min(record.held, key=str))
    assert record.roster.is_over
    assert set(record.over) == set(record.tasks)
    if record.late_after_s is None:
        finished = set(record.over) - set(record.given_up)
        assert all(record.deaths[key] < ATTEMPTS for key in finished), "it had been tried often enough"


@given(st.lists(st.floats(0, 100), max_size=12), st.integers(1, 4))
def test_the_costliest_are_begun_first(costs: list[float], hands: int):
    record = Record(costs, None)
    record.join("a", hands)
    while record.held:
        record.end(min(record.held, key=str))
    assert [record.tasks[key].cost_s for key in record.order] == sorted(costs, reverse=True)


def begun(instructions: list[Instruction]) -> list[tuple[str, str]]:
    return [(each.what.key, each.what.worker) for each in instructions if isinstance(each, Begin)]


def test_order_of_costs():
    roster = Roster([Task("short", 1), Task("long", 9), Task("middle", 5)])
    assert begun(roster.joined("a", 2, 0.0)) == [("long", "a"), ("middle", "a")]


def test_a_job_that_kills_its_workers_waits_behind_the_others_and_is_given_up():
    roster = Roster([Task("bad", 9), *(Task(f"good{index}", 1) for index in range(2))])
    assert begun(roster.joined("a", 1, 0.0)) == [("bad", "a")]
    assert roster.left("a", now_s=1.0) == [Lost(Assignment("bad", 1, "a"), is_elsewhere=False)]
    (begin,) = roster.joined("b", 1, 1.0)
    assert begin.what.key == "good0"
    _, (begin,) = roster.ended(begin.what, 2.0)
    _, (begin,) = roster.ended(begin.what, 3.0)
    assert begin.what == Assignment("bad", 2, "b")
    roster.left("b", now_s=4.0)
    assert begun(roster.joined("c", 1, 4.0)) == [("bad", "c")]
    assert roster.left("c", now_s=5.0) == [GiveUp("bad", "c", ATTEMPTS)]
    assert roster.is_over


def test_a_late_job_is_begun_elsewhere_once_its_kind_is_known_to_be_quicker():
    roster = Roster([Task("slow", 2, "film"), Task("quick", 1, "film"), Task("other", 0.5, "page")], late_after_s=5.0)
    slow, quick = (begin.what for begin in (*roster.joined("a", 1, 0.0), *roster.joined("b", 1, 0.0)))
    _, (other,) = roster.ended(quick, 4.0)
    roster.ended(other.what, 6.0)
    assert roster.passed(LATE_TIMES * 4.0) == []
    (again,) = roster.passed(LATE_TIMES * 4.0 + 0.1)
    assert (again.what.key, again.what.worker, again.late_s) == ("slow", "b", LATE_TIMES * 4.0 + 0.1)
    assert roster.passed(1000.0) == []
    assert roster.ended(again.what, 1001.0) == (True, [])
    assert roster.is_over
    assert roster.under_way == [slow]
    assert roster.ended(slow, 1002.0) == (False, [])


def test_what_the_cluster_lost_is_blamed_on_nobody():
    roster = Roster([Task("film", 1)])
    for time_s in range(2 * ATTEMPTS):
        assert begun(roster.joined("a", 1, time_s)) == [("film", "a")]
        assert roster.left("a", now_s=time_s, is_blamed=False) == [
            Lost(Assignment("film", time_s + 1, "a"), is_elsewhere=False)
        ]
    assert not roster.is_over
