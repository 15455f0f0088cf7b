package tepidarium.faults;

import static tepidarium.faults.MqttBytes.utf8;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;

/** Requests that break HTTP, come from foreign pages, or hold connections. */
final class HttpAttacks {
  /** How long a page may take under attack while other programs use the processors too. */
  private static final int PAGE_MS = 30_000;

  private static final String HOST = "Host: localhost\r\n";
  private static final String JSON = "Content-Type: application/json\r\n";

  private HttpAttacks() {}

  static List<Attack> all() {
    return List.of(
        Attack.quick("requests that break HTTP", HttpAttacks::broken),
        Attack.quick("bodies that cost more than they are worth", HttpAttacks::bodies),
        Attack.quick("writes from foreign pages, and foreign host names", HttpAttacks::foreign),
        Attack.quick("paths out of the folder of the pages", HttpAttacks::paths),
        Attack.slow("headers and queries without end", HttpAttacks::large),
        Attack.quick("60 bodies that trickle, 60 pipelines nobody reads", HttpAttacks::slow),
        Attack.slow("150 live streams", HttpAttacks::streams),
        Attack.slow("200 half requests", HttpAttacks::halves),
        Attack.slow("500 connections of random bytes to the pages", HttpAttacks::random));
  }

  /** Refused, or answered with anything that is no failure of the server. */
  private static void check(Tries tries, int status, String name) {
    boolean good = status == RawHttp.CLOSED || (status >= 100 && status < 500);
    tries.check(good || status == 501 || status == 505, "status " + status + " to " + name);
  }

  private static void refused(Tries tries, int status, String name) {
    boolean good = status == RawHttp.CLOSED || (status >= 300 && status < 500);
    tries.check(good || status == 501 || status == 505, "status " + status + " to " + name);
  }

  private static void ask(Target target, Tries tries, String request) throws IOException {
    String name = request.lines().findFirst().orElse("");
    name = name.substring(0, Math.min(40, name.length()));
    check(tries, RawHttp.status(target, utf8(request)), name);
  }

  private static byte[] post(String path, String headers, byte[] body) {
    String head =
        "POST " + path + " HTTP/1.1\r\n" + HOST + headers + "Content-Length: " + body.length;
    return MqttBytes.join(utf8(head + "\r\n\r\n"), body);
  }

  private static void broken(Target target, Tries tries) throws IOException {
    ask(target, tries, "GET / HTTP/1.0\r\n\r\n");
    ask(target, tries, "GET / HTTP/1.1\r\n\r\n");
    ask(target, tries, "GET / HTTP/9.9\r\n" + HOST + "\r\n");
    ask(target, tries, "GET /\r\n\r\n");
    ask(target, tries, "TRACE / HTTP/1.1\r\n" + HOST + "Cookie: secret\r\n\r\n");
    ask(target, tries, "CONNECT localhost:22 HTTP/1.1\r\n" + HOST + "\r\n");
    ask(target, tries, "OPTIONS * HTTP/1.1\r\n" + HOST + "\r\n");
    ask(target, tries, "BREW /coffee HTTP/1.1\r\n" + HOST + "\r\n");
    ask(target, tries, "GET http://elsewhere/ HTTP/1.1\r\n" + HOST + "\r\n");
    ask(target, tries, "GET / HTTP/1.1\r\n" + HOST + HOST + "\r\n");
    ask(target, tries, "GET / HTTP/1.1\r\n" + HOST + "no colon\r\n\r\n");
    ask(target, tries, "GET / HTTP/1.1\r\n" + HOST + "A: b\0c\r\n\r\n");
    ask(target, tries, "GET / HTTP/1.1\r\n" + HOST + "Range: bytes=9-1,-,x\r\n\r\n");
    ask(target, tries, "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n");
    String upgrade = "Upgrade: websocket\r\nConnection: Upgrade\r\n";
    ask(target, tries, "GET /api/live HTTP/1.1\r\n" + HOST + upgrade + "\r\n");
    String start = "POST /api/containers HTTP/1.1\r\n" + HOST + JSON;
    ask(target, tries, start + "Content-Length: -1\r\n\r\n{}");
    ask(target, tries, start + "Content-Length: 99999999999999999999\r\n\r\n{}");
    ask(target, tries, start + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}");
    ask(target, tries, start + "Transfer-Encoding: chunked\r\n\r\nzz\r\n{}\r\n0\r\n\r\n");
    ask(target, tries, start + "Transfer-Encoding: chunked\r\n\r\nFFFFFFFFFFFFFFFFF\r\n");
    ask(target, tries, start + "Transfer-Encoding: gzip, chunked, x\r\n\r\n0\r\n\r\n");
    ask(target, tries, start + "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n");
  }

  private static void bodies(Target target, Tries tries) throws IOException {
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(packed)) {
      gzip.write(utf8("{\"name\":\"" + "x".repeat(20_000_000) + "\"}"));
    }
    String deep = "{\"a\":".repeat(20_000) + "1" + "}".repeat(20_000);
    String number = "{\"name\":\"a\",\"kind\":\"bag\",\"base\":" + "9".repeat(10_000) + "}";
    for (String path : List.of("/api/containers", "/api/sowings", "/api/placements")) {
      for (String body :
          List.of(
              deep,
              "[".repeat(50_000),
              number,
              "{\"name\":1e999999999}",
              "{\"name\":null,\"name\":null}",
              "",
              "null",
              "[]",
              "\"x\"",
              "\0")) {
        refused(tries, RawHttp.status(target, post(path, JSON, utf8(body))), path);
      }
      refused(
          tries,
          RawHttp.status(
              target, post(path, JSON + "Content-Encoding: gzip\r\n", packed.toByteArray())),
          "a packed body to " + path);
      byte[] text = utf8("{\"name\":\"a\",\"kind\":\"bag\"}");
      refused(
          tries,
          RawHttp.status(target, post(path, "Content-Type: text/plain\r\n", text)),
          "text/plain to " + path);
    }
  }

  private static void foreign(Target target, Tries tries) throws IOException {
    byte[] body = utf8("{\"name\":\"forged\",\"kind\":\"bag\"}");
    for (String headers :
        List.of(
            "Origin: http://evil.example\r\n" + JSON,
            "Origin: null\r\n" + JSON,
            "Origin: http://localhost.evil.example\r\n" + JSON,
            "Origin: http://evil.example\r\nContent-Type: text/plain\r\n",
            "Origin: http://evil.example\r\nSec-Fetch-Site: same-origin\r\n" + JSON)) {
      refused(
          tries, RawHttp.status(target, post("/api/containers", headers, body)), "a foreign page");
    }
    for (String host :
        List.of("evil.example", "evil.example:80", "localhost.evil.example", "[::ffff:8.8.8.8]")) {
      String request = "GET /api/containers HTTP/1.1\r\nHost: " + host + "\r\n\r\n";
      refused(tries, RawHttp.status(target, utf8(request)), "the host " + host);
    }
    boolean made = target.grower().api().get("/api/containers").toString().contains("forged");
    tries.check(!made, "a foreign page has made a container");
  }

  private static void paths(Target target, Tries tries) throws IOException {
    for (String path :
        List.of(
            "/../../../../etc/passwd",
            "/..%2f..%2f..%2f..%2fetc/passwd",
            "/%2e%2e/%2e%2e/%2e%2e/etc/passwd",
            "/..;/..;/etc/passwd",
            "//etc/passwd",
            "/....//....//etc/passwd",
            "/..%5c..%5cetc%5cpasswd",
            "/%00",
            "/%zz",
            "/index.html%00.js",
            "/WEB-INF/web.xml",
            "/api/../records.db",
            "/api/containers/..%2f..%2frecords.db",
            "/api/containers/%00",
            "/tepidarium/app/Main.class")) {
      try (RawHttp http = new RawHttp(target)) {
        http.send(utf8("GET " + path + " HTTP/1.1\r\n" + HOST + "Connection: close\r\n\r\n"));
        String answer = http.all();
        boolean leaked =
            answer.contains("root:")
                || answer.contains("SQLite")
                || answer.contains("\u00CA\u00FE");
        boolean failed = answer.startsWith("HTTP/1.1 5") || answer.contains("\tat ");
        tries.check(!leaked && !failed, "the answer to " + path);
      }
    }
  }

  private static void large(Target target, Tries tries) throws IOException {
    String get = "GET /api/health HTTP/1.1\r\n" + HOST;
    ask(target, tries, get + "A: " + "x".repeat(100_000) + "\r\n\r\n");
    ask(target, tries, get + "A: b\r\n".repeat(20_000) + "\r\n");
    ask(target, tries, get + "Cookie: " + "a=b; ".repeat(50_000) + "\r\n\r\n");
    ask(target, tries, "GET /api/health?" + "x=y&".repeat(250_000) + " HTTP/1.1\r\n" + HOST);
    ask(target, tries, "GET /" + "x/".repeat(100_000) + " HTTP/1.1\r\n" + HOST + "\r\n");
    String ranges = "0-0,".repeat(1_000);
    for (int i = 0; i < 20; i++) {
      ask(target, tries, "GET / HTTP/1.1\r\n" + HOST + "Range: bytes=" + ranges + "1-1\r\n\r\n");
    }
    for (String query : List.of("limit=-1", "limit=1e9", "limit=99999999999", "limit=x")) {
      ask(target, tries, "GET /api/rejects?" + query + " HTTP/1.1\r\n" + HOST + "\r\n");
    }
  }

  /** Connections that are held by slowness; the pages must answer meanwhile. */
  private static void slow(Target target, Tries tries) throws IOException {
    List<RawHttp> held = new ArrayList<>();
    try {
      byte[] start = post("/api/containers", JSON, new byte[100_000]);
      byte[] pipeline = utf8(("GET /api/explain HTTP/1.1\r\n" + HOST + "\r\n").repeat(200));
      for (int i = 0; i < 60; i++) {
        hold(target, held, java.util.Arrays.copyOf(start, 400 + i));
        hold(target, held, pipeline);
      }
      pagesAnswer(target, tries);
      tries.check(target.secondsUntilStored() < Target.goalSeconds(), "good readings waited");
    } finally {
      close(held);
    }
  }

  private static void hold(Target target, List<RawHttp> held, byte[] bytes) throws IOException {
    RawHttp one = new RawHttp(target);
    held.add(one);
    one.send(bytes);
  }

  private static void close(List<RawHttp> held) throws IOException {
    for (RawHttp one : held) {
      one.close();
    }
  }

  private static void pagesAnswer(Target target, Tries tries) throws IOException {
    for (String path : List.of("/api/health", "/")) {
      long from = System.nanoTime();
      String request = "GET " + path + " HTTP/1.1\r\n" + HOST + "Connection: close\r\n\r\n";
      int status = RawHttp.status(target, utf8(request), PAGE_MS);
      double seconds = (System.nanoTime() - from) / 1e9;
      // All connections here come from one address, whose share may be used up for ordinary pages.
      boolean good = status == 200 || (path.equals("/") && (status == 503 || status == 429));
      tries.check(good, path + " answered with " + status + " after " + seconds + " s");
    }
  }

  private static void streams(Target target, Tries tries) throws IOException {
    List<RawHttp> held = new ArrayList<>();
    try {
      String open = "GET /api/live HTTP/1.1\r\n" + HOST + "Accept: text/event-stream\r\n\r\n";
      for (int i = 0; i < 150; i++) {
        hold(target, held, utf8(open));
      }
      pagesAnswer(target, tries);
      tries.check(target.secondsUntilStored() < Target.goalSeconds(), "good readings waited");
    } finally {
      close(held);
    }
  }

  private static void halves(Target target, Tries tries) throws IOException {
    List<RawHttp> held = new ArrayList<>();
    try {
      for (int i = 0; i < 200; i++) {
        hold(target, held, utf8("GET / HTTP/1.1\r\nHo"));
      }
      pagesAnswer(target, tries);
    } finally {
      close(held);
    }
  }

  private static void random(Target target, Tries tries) throws IOException {
    Random random = new Random(11);
    for (int i = 0; i < 500; i++) {
      byte[] bytes = new byte[1 + random.nextInt(300)];
      random.nextBytes(bytes);
      try (RawHttp http = new RawHttp(target)) {
        http.send(new String(bytes, StandardCharsets.ISO_8859_1).getBytes(StandardCharsets.UTF_8));
        tries.refused();
      }
    }
  }
}
