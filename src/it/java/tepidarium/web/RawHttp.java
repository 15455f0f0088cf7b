package tepidarium.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** An answer to a request that a well-behaved client cannot send. */
record RawHttp(int status, String head, String body) {
  /** Sends the head of a request, ends its sending there, and reads the answer to its end. */
  static RawHttp send(String base, String... head) {
    String host = "Host: " + URI.create(base).getAuthority();
    return exchange(base, String.join("\r\n", head) + "\r\n" + host, "");
  }

  /** Sends a request as it stands, but for the header that closes the connection. */
  static RawHttp exchange(String base, String head, String body) {
    URI address = URI.create(base);
    try (Socket socket = new Socket(address.getHost(), address.getPort())) {
      socket.setSoTimeout(20_000);
      String text = head + "\r\nConnection: close\r\n\r\n" + body;
      socket.getOutputStream().write(text.getBytes(StandardCharsets.UTF_8));
      socket.getOutputStream().flush();
      byte[] answer = socket.getInputStream().readAllBytes();
      String[] parts = new String(answer, StandardCharsets.UTF_8).split("\r\n\r\n", 2);
      return new RawHttp(Integer.parseInt(parts[0].split(" ", -1)[1]), parts[0], parts[1]);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The value of a header; empty where there is none. */
  String header(String name) {
    String begin = name.toLowerCase(Locale.ROOT) + ':';
    return head.lines()
        .filter(line -> line.toLowerCase(Locale.ROOT).startsWith(begin))
        .map(line -> line.substring(begin.length()).strip())
        .findFirst()
        .orElse("");
  }

  String type() {
    return header("Content-Type");
  }
}
