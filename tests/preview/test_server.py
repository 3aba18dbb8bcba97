import contextlib
import http.client
import socket
import threading

import pytest

from daterun.preview.server import HOST, Showing, find_file, serve

PAGE = "<!doctype html><html><head></head><body><h1>{}</h1></body></html>"


@pytest.fixture
def site(tmp_path):
    root = tmp_path / "site"
    for name in ("index.html", "404.html", "coins/½ ort/index.html"):
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(PAGE.format(name), encoding="utf-8")
    (root / "assets").mkdir()
    (root / "assets" / "style.css").write_text("p {}")
    (root / ".daterun-edition").write_text("keeper\n")
    (tmp_path / "secret.html").write_text("secret")
    return root


@pytest.fixture
def showing(site):
    return Showing(site, "/base/")


@pytest.fixture
def address(showing):
    with serve(showing, 0) as where:
        yield where.removeprefix("http://").rstrip("/")


def get(address, path, method="GET", **headers):
    connection = http.client.HTTPConnection(address, timeout=10)
    try:
        connection.putrequest(method, path, skip_host="Host" in headers)
        for name, value in headers.items():
            connection.putheader(name, value)
        connection.endheaders()
        response = connection.getresponse()
        return response, response.read().decode()
    finally:
        connection.close()


def test_it_serves_this_machine_alone(address):
    assert address.startswith(f"{HOST}:")
    assert HOST == "127.0.0.1"


def test_a_page_is_served_with_the_script_and_is_never_kept(address, site):
    response, text = get(address, "/")
    assert response.status == 200
    assert response.getheader("Cache-Control") == "no-store"
    assert response.getheader("Content-Type") == "text/html; charset=utf-8"
    assert "<h1>index.html</h1>" in text and "/.daterun/follow.js" in text
    assert "daterun" not in (site / "index.html").read_text()


def test_a_folder_without_its_last_stroke_leads_to_it(address):
    response, _ = get(address, "/coins/%C2%BD%20ort")
    assert (response.status, response.getheader("Location")) == (301, "/coins/%C2%BD%20ort/")
    response, text = get(address, "/coins/%C2%BD%20ort/?x=1")
    assert response.status == 200 and "½ ort" in text


def test_assets_are_served_as_what_they_are(address):
    response, text = get(address, "/assets/style.css")
    assert (response.getheader("Content-Type"), text) == ("text/css; charset=utf-8", "p {}")


def test_whole_links_below_the_base_lead_here_too(address):
    assert get(address, "/base/assets/style.css")[0].status == 200


def test_a_lost_address_has_the_site_s_own_page(address):
    response, text = get(address, "/coins/nothing/here.html")
    assert response.status == 404
    assert "<h1>404.html</h1>" in text and '<base href="/">' in text


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.html",
        "/%2e%2e/secret.html",
        "/coins/../../secret.html",
        "/..%2fsecret.html",
        "/..\\secret.html",
        "//secret.html",
        "/.daterun-edition",
        "/coins/%00",
        "/c:/x",
        "/link.html",
        "/" + "x" * 5000,
    ],
)
def test_nothing_outside_the_edition_is_served(address, site, path):
    (site / "link.html").symlink_to(site.parent / "secret.html")
    response, text = get(address, path)
    assert response.status in (404, 400)
    assert "secret" not in text.replace("/secret.html", "") and "keeper" not in text


@pytest.mark.parametrize("host", ["evil.example", "evil.example:80", "127.0.0.1", "127.0.0.1:1", ""])
def test_another_host_s_name_is_refused(address, host):
    response, text = get(address, "/", Host=host)
    assert response.status == 421
    assert "index.html" not in text


@pytest.mark.parametrize("origin", ["https://evil.example", "null", "http://127.0.0.1:1", "file://", ""])
def test_a_page_of_another_site_is_told_nothing(address, origin):
    for path in ("/", "/.daterun/changes", "/assets/style.css"):
        response, text = get(address, path, Origin=origin)
        assert response.status == 421
        assert "p {}" not in text and "data:" not in text
    assert get(address, "/", Origin=f"http://{address}")[0].status == 200


def test_what_is_served_may_not_be_put_into_another_sites_page(address):
    response, _ = get(address, "/assets/style.css")
    assert response.getheader("Cross-Origin-Resource-Policy") == "same-origin"


def test_clients_that_ask_slowly_do_not_keep_others_waiting(address):
    host, _, port = address.rpartition(":")
    slow = [socket.create_connection((host, int(port)), timeout=10) for _ in range(60)]
    try:
        for each in slow:
            each.sendall(b"GET / HT")
        assert get(address, "/")[0].status == 200
    finally:
        for each in slow:
            each.close()


@pytest.mark.parametrize("asked", [b"", b"GET / HT", b"GET /.daterun/changes HTTP/1.1\r\nHost: {}\r\n\r\n"])
def test_more_clients_than_can_be_held_do_not_keep_others_waiting(address, monkeypatch, asked):
    monkeypatch.setattr("daterun.preview.server.MOST_AT_ONCE", 20)
    host, _, port = address.rpartition(":")
    clients = []
    try:
        for nth in range(100):
            clients.append(socket.create_connection((host, int(port)), timeout=10))
            clients[-1].sendall(asked.replace(b"{}", address.encode()))
            if nth % 10 == 0:
                assert get(address, "/")[0].status == 200
        assert get(address, "/")[0].status == 200
        at_work = [each for each in threading.enumerate() if "process_request_thread" in each.name]
        for each in at_work[:-40]:
            each.join(10)
        assert not any(each.is_alive() for each in at_work[:-40])
        clients[0].settimeout(10)
        while clients[0].recv(1000):  # to its end: it was let go
            pass
    finally:
        for each in clients:
            each.close()


def test_a_client_that_takes_slowly_does_not_keep_others_waiting(address, site):
    (site / "large.txt").write_bytes(b"x" * 20_000_000)
    host, _, port = address.rpartition(":")
    slow = [socket.create_connection((host, int(port)), timeout=10) for _ in range(5)]
    try:
        for each in slow:
            each.sendall(f"GET /large.txt HTTP/1.1\r\nHost: {address}\r\n\r\n".encode())
            assert each.recv(12) == b"HTTP/1.1 200"
        assert get(address, "/")[0].status == 200
    finally:
        for each in slow:
            each.close()


@pytest.mark.parametrize(
    "request_text",
    [
        "GET",
        "\0\0\0\r\n\r\n",
        "GET / HTTP/9.9\r\n\r\n",
        "GET http://evil.example/ HTTP/1.1\r\nHost: {}\r\n\r\n",
        "GET //evil.example/%2e%2e HTTP/1.1\r\nHost: {}\r\n\r\n",
        "GET /" + "x" * 70_000 + " HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.1\r\n" + "X: y\r\n" * 200 + "\r\n",
        "GET / HTTP/1.1\r\nHost: {}\r\nHost: evil.example\r\n\r\n",
        "GET / HTTP/1.1\r\nContent-Length: 99\r\nHost: {}\r\n\r\n",
        "CONNECT x HTTP/1.1\r\nHost: {}\r\n\r\n",
    ],
)
def test_an_odd_request_harms_nothing(address, capsys, request_text):
    host, _, port = address.rpartition(":")
    with socket.create_connection((host, int(port)), timeout=10) as client:
        client.sendall(request_text.replace("{}", address).encode("latin-1"))
        client.shutdown(socket.SHUT_WR)
        answer = b""
        with contextlib.suppress(ConnectionError):
            while piece := client.recv(100_000):
                answer += piece
    assert b"secret" not in answer
    assert get(address, "/")[0].status == 200
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("site_of", "mode", "what", "status"),
    [
        ("cross-site", "no-cors", "image", 421),
        ("cross-site", "no-cors", "script", 421),
        ("same-site", "no-cors", "style", 421),
        ("cross-site", "navigate", "iframe", 421),
        ("cross-site", "navigate", "document", 200),
        ("same-origin", "no-cors", "image", 200),
        ("none", "navigate", "document", 200),
    ],
)
def test_another_site_may_lead_here_and_no_more(address, site_of, mode, what, status):
    said = {"Sec-Fetch-Site": site_of, "Sec-Fetch-Mode": mode, "Sec-Fetch-Dest": what}
    response, _ = get(address, "/", **said)
    assert response.status == status
    assert status == 421 or response.getheader("Content-Security-Policy") == "frame-ancestors 'none'"


def test_localhost_is_this_machine(address):
    port = address.rpartition(":")[2]
    assert get(address, "/", Host=f"localhost:{port}")[0].status == 200


def test_a_head_is_answered_without_a_body(address):
    response, text = get(address, "/", method="HEAD")
    assert response.status == 200 and text == ""
    assert int(response.getheader("Content-Length")) > 0


def test_nothing_can_be_sent_to_it(address):
    assert get(address, "/", method="POST")[0].status == 501


def test_problems_stand_over_every_page(address, showing):
    showing.change("a <problem>")
    _, text = get(address, "/")
    assert "<h1>index.html</h1>" in text and "a &lt;problem&gt;" in text


def test_without_an_edition_the_problems_are_the_page(address, showing, site):
    (site / "index.html").unlink()
    showing.change("a problem")
    response, text = get(address, "/anything")
    assert response.status == 503
    assert "a problem" in text and "/.daterun/follow.js" in text


def test_a_taken_port_gives_way_to_another(showing, address, site):
    taken = int(address.rpartition(":")[2])
    with serve(Showing(site), taken) as other:
        assert other != f"http://{HOST}:{taken}/"
        assert get(other.removeprefix("http://").rstrip("/"), "/")[0].status == 200


def test_browsers_are_told_the_version_at_once_and_at_every_change(address, showing):
    connection = http.client.HTTPConnection(address, timeout=10)
    connection.request("GET", "/.daterun/changes")
    response = connection.getresponse()
    assert response.getheader("Content-Type") == "text/event-stream"
    first = showing.version
    assert response.readline() == f"data: {first}\n".encode()
    assert response.readline() == b"\n"
    showing.change("")
    assert showing.version != first
    assert response.readline() == f"data: {showing.version}\n".encode()
    connection.close()


def test_two_servers_never_give_the_same_version(site):
    assert Showing(site).version != Showing(site).version


def test_it_ends_while_browsers_are_waiting(site):
    showing = Showing(site)
    with serve(showing, 0) as where:
        connection = http.client.HTTPConnection(where.removeprefix("http://").rstrip("/"), timeout=10)
        connection.request("GET", "/.daterun/changes")
        response = connection.getresponse()
        response.readline()
    assert response.read() in (b"\n", b"")
    connection.close()
    assert not any(thread.name == "preview" for thread in threading.enumerate())


def test_a_waiting_browser_is_told_in_time_that_nothing_changed(site):
    showing = Showing(site)
    assert showing.wait(showing.version, 0.0) == showing.version
    showing.end()
    assert showing.wait(showing.version, 10.0) is None


def test_files_are_found_below_the_root_alone(site):
    assert find_file(site, "/") == site / "index.html"
    assert find_file(site, "/coins/½ ort") == site / "coins/½ ort"
    assert find_file(site, "/coins") is None
    assert find_file(site, "index.html") is None
