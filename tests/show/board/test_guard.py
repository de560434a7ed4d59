"""Who may look at the board, asked over real connections."""

from __future__ import annotations

import socket
from collections.abc import Iterator

import httpx
import pytest

from handsfree.errors import BoardFailed, WrongUse
from handsfree.show.board.guard import HEADERS, WRONG_CODES, Codes
from handsfree.show.board.notice import Notices
from handsfree.show.board.server import Board, address_of, served
from handsfree.testing.dialogue import START


@pytest.fixture
def codes() -> Codes:
    return Codes(told=lambda code: None)


@pytest.fixture
def open_board() -> Iterator[httpx.Client]:
    """A board that anybody on this machine may look at."""
    with served(Board(Notices(), lambda: START), "127.0.0.1", 0) as url, httpx.Client(base_url=url) as client:
        yield client


@pytest.fixture
def shut_board(codes: Codes) -> Iterator[httpx.Client]:
    """A board for devices that give the code."""
    with (
        served(Board(Notices(), lambda: START, codes), "127.0.0.1", 0) as url,
        httpx.Client(base_url=url) as client,
    ):
        yield client


PATHS = ["/", "/board.css", "/board.js", "/nowhere"]


@pytest.mark.parametrize("path", PATHS)
def test_every_answer_forbids_what_is_not_needed(open_board: httpx.Client, path: str) -> None:
    """The page loads nothing from elsewhere and stands in no frame, whatever was asked for."""
    answer = open_board.get(path)

    assert dict(HEADERS) == {name: answer.headers[name] for name in HEADERS}
    assert "server" not in answer.headers


REFUSED = [
    ("GET", {"host": "evil.example"}),
    ("GET", {"origin": "http://evil.example"}),
    ("GET", {"origin": "null"}),
    ("GET", {"sec-fetch-site": "cross-site"}),
    ("POST", {}),
    ("PUT", {}),
    ("DELETE", {}),
    ("OPTIONS", {}),
]


@pytest.mark.parametrize(("method", "headers"), REFUSED)
@pytest.mark.parametrize("path", ["/", "/seen"])
def test_strangers_are_refused(
    open_board: httpx.Client, method: str, headers: dict[str, str], path: str
) -> None:
    """Another name for this machine, another page's request, and whatever would change something."""
    assert 403 == open_board.request(method, path, headers=headers).status_code


def test_own_page_is_answered(open_board: httpx.Client) -> None:
    """A browser that asks for its own page's files."""
    own = {"origin": str(open_board.base_url).rstrip("/"), "sec-fetch-site": "same-origin"}

    assert [200, 200] == [open_board.get(path, headers=own).status_code for path in ("/", "/board.js")]


def test_code_lets_one_device_in(shut_board: httpx.Client, codes: Codes) -> None:
    """Once: then there is another code, and the device needs none."""
    code = codes.code

    assert [403, 403] == [shut_board.get(path).status_code for path in ("/", "/seen")]
    assert 303 == shut_board.get("/", params={"code": code}).status_code
    assert 200 == shut_board.get("/").status_code
    assert code != codes.code
    shut_board.cookies.clear()
    assert 403 == shut_board.get("/", params={"code": code}).status_code


def test_cookie_is_kept_from_scripts_and_other_pages(shut_board: httpx.Client, codes: Codes) -> None:
    """HttpOnly, SameSite=Strict (RFC 6265bis)."""
    cookie = shut_board.get("/", params={"code": codes.code}).headers["set-cookie"].lower()

    assert "httponly" in cookie
    assert "samesite=strict" in cookie


def test_codes_are_not_to_be_guessed(shut_board: httpx.Client, codes: Codes) -> None:
    """After some wrong ones not even the right one lets anybody in; who is in stays in."""
    shut_board.get("/", params={"code": codes.code})
    with httpx.Client(base_url=shut_board.base_url) as other:
        wrong = [other.get("/", params={"code": "x"}).status_code for _ in range(WRONG_CODES)]
        late = other.get("/", params={"code": codes.code}).status_code

    assert ({403}, 403, 200) == ({*wrong}, late, shut_board.get("/").status_code)


ADDRESSES = [
    "",
    "192.0.2.7",
    "192.0.2.7:",
    "192.0.2.7:0",
    "192.0.2.7:70000",
    "board.local:80",
    "::1:80",
    ":80",
]


@pytest.mark.parametrize("text", ADDRESSES)
def test_no_address_is_refused(text: str) -> None:
    """In a sentence that shows a right one."""
    with pytest.raises(WrongUse, match="is no address for the board"):
        address_of(text)


def test_address_is_read() -> None:
    """Address and port."""
    assert ("192.0.2.7", 8437) == address_of("192.0.2.7:8437")


def test_taken_address_is_told() -> None:
    """Another program has the port, or the machine has not the address."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        with (
            pytest.raises(BoardFailed, match="Choose another"),
            served(Board(Notices(), lambda: START), "127.0.0.1", other.getsockname()[1]),
        ):
            pass
    with (
        pytest.raises(BoardFailed, match="Choose another"),
        served(Board(Notices(), lambda: START), "192.0.2.7", 8437),
    ):
        pass
