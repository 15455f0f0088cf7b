package tepidarium.web.server;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;

import io.javalin.http.Context;
import java.lang.reflect.Proxy;
import org.junit.jupiter.api.Test;

/**
 * Once a browser has gone, the server takes the request back and every question about it fails. The
 * framework hands a failure of the handler to the handler again, without end.
 */
class LeftBeforeItsAnswerTest {
  @Test
  void theHandlerOfUnexpectedFailuresNeverThrows() {
    Context gone =
        (Context)
            Proxy.newProxyInstance(
                Context.class.getClassLoader(),
                new Class<?>[] {Context.class},
                (proxy, method, arguments) -> {
                  throw new NullPointerException("the request was taken back");
                });

    assertDoesNotThrow(() -> Failures.unexpected(new IllegalStateException("recycled"), gone));
  }
}
