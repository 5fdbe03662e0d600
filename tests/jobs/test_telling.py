"""Telling from inside a job: heard where somebody listens, in no more words than can be read."""

from __future__ import annotations

import threading

from gamutwright.jobs.telling import PER_SECOND, listening, tell


def test_nobody_needs_to_listen():
    tell("pictures", 1, 2)


def test_a_talkative_job_is_heard_about_five_times_a_second():
    heard: list[int] = []
    now = [0.0]
    with listening(lambda stage, done, total: heard.append(done), lambda: now[0]):
        for step in range(10_000):
            now[0] = step / 1_000
            tell("pictures", step, 10_000)
    assert PER_SECOND * 10 - 1 <= len(heard) <= PER_SECOND * 11
    assert heard[: int(PER_SECOND)] == list(range(int(PER_SECOND))), "the first words are not held back"


def test_threads_have_their_own_listeners():
    heard: dict[str, list[str]] = {"a": [], "b": []}
    both = threading.Barrier(2, timeout=10)

    def work(name: str) -> None:
        with listening(lambda stage, done, total: heard[name].append(stage)):
            both.wait()
            tell(f"stage of {name}", 0, 1)
            both.wait()
        tell("afterwards", 0, 1)

    threads = [threading.Thread(target=work, args=(name,)) for name in heard]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert heard == {"a": ["stage of a"], "b": ["stage of b"]}
