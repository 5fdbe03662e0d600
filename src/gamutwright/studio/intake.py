"""What a request may bring, and how long it may take: counted while it comes in, before anything is kept.

Conventions: sizes are bytes, times seconds. A body that says beforehand that it is too large is not read; one that
turns out so is refused at that byte. A refusal is answered at once, and for a moment what still comes is thrown away,
so that a browser in the middle of sending reads the answer before the connection ends.
"""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Final

from starlette.exceptions import HTTPException

from gamutwright.errors import told
from gamutwright.studio.errors import Told

if TYPE_CHECKING:
    from starlette.types import Message, Receive, Scope

__all__ = ["JSON_LIMIT", "TAKE_LIMIT", "Intake", "body_limit", "has_body"]

JSON_LIMIT: Final = 1_000_000
TAKE_LIMIT: Final = 64_000_000
"""A take of ten minutes in 48 kHz and 16 bits, mono, is 57.6 MB."""
TAKES: Final = ("/takes/", "/api/takes/")
IDLE_S = 10.0
"""How long nothing may come."""
WHOLE_S = 30.0
TAKE_S = 300.0
"""How long a body may take as a whole."""
LINGER_S = 1.0


def body_limit(path: str) -> int:
    """Give the largest body that an address takes.

    Parameters
    ----------
    path : str
        The address.

    Returns
    -------
    int
        Bytes.

    Examples
    --------
    >>> body_limit("/api/script/dorian"), body_limit("/takes/dorian/line-3"), body_limit("/takeshi")
    (1000000, 64000000, 1000000)
    """
    return TAKE_LIMIT if path.startswith(TAKES) else JSON_LIMIT


def has_body(scope: Scope) -> bool:
    """Whether a request brings a body.

    Parameters
    ----------
    scope : dict
        The request, by the ASGI specification.

    Returns
    -------
    bool
        True as well where only reading it would tell.
    """
    return any(
        name == b"transfer-encoding" or (name == b"content-length" and value.strip() != b"0")
        for name, value in scope["headers"]
    )


class Intake:
    """A body on its way in.

    Parameters
    ----------
    scope : dict
        The request.
    receive : callable
        Gives its next message.
    """

    def __init__(self, scope: Scope, receive: Receive) -> None:
        self._receive = receive
        self._limit = body_limit(scope["path"])
        self._left_s = TAKE_S if self._limit == TAKE_LIMIT else WHOLE_S
        self._count = 0
        self._waits_for_leave = any(name == b"expect" for name, _ in scope["headers"])
        self.is_whole = not has_body(scope)
        self.refused: Told | None = None
        declared = next((value for name, value in scope["headers"] if name == b"content-length"), b"")
        if declared.isdigit() and int(declared[:20]) > self._limit:
            self._refuse_large()

    async def __call__(self) -> Message:
        """Give the next message, as ASGI has it.

        Raises
        ------
        HTTPException
            If the body is too large or too slow; `refused` tells.
        """
        if self.refused is not None:
            raise HTTPException(self.refused.status)
        if self.is_whole:
            return await self._receive()
        message = await self._next()
        if message["type"] == "http.request":
            self._count += len(message.get("body", b""))
            self.is_whole = not message.get("more_body", False)
            if self._count > self._limit:
                self._refuse_large()
                raise HTTPException(413)
        return message

    async def _next(self) -> Message:
        clock = asyncio.get_running_loop().time
        before = clock()
        try:
            async with asyncio.timeout(min(IDLE_S, self._left_s)):
                return await self._receive()
        except TimeoutError:
            self.refused = Told(
                408, told("what was sent"), told("it did not come to its end in time"), told("Send it again.")
            )
            raise HTTPException(408) from None
        finally:
            self._left_s -= clock() - before

    def _refuse_large(self) -> None:
        rule = told("it is larger than the {part} MB that are taken at once", part=self._limit // 1_000_000)
        self.refused = Told(413, told("what was sent"), rule, told("Send less; cut a long recording into lines."))

    async def throw_away(self) -> None:
        """Let what still comes go by, for a moment."""
        if self._waits_for_leave and not self._count:
            return  # it was never sent
        try:
            async with asyncio.timeout(LINGER_S):
                while not self.is_whole:
                    message = await self._receive()
                    self.is_whole = message["type"] != "http.request" or not message.get("more_body", False)
        except TimeoutError:
            pass
