package tepidarium.sites;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpResponse.BodySubscriber;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import org.jspecify.annotations.Nullable;

/** Reads the body of an answer up to a size; a longer one is a failure. */
final class LimitedBody implements BodySubscriber<byte[]> {
  private final int mostBytes;
  private final CompletableFuture<byte[]> body = new CompletableFuture<>();
  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
  private volatile Flow.@Nullable Subscription subscription;

  LimitedBody(int mostBytes) {
    this.mostBytes = mostBytes;
  }

  @Override
  public CompletionStage<byte[]> getBody() {
    return body;
  }

  @Override
  public void onSubscribe(Flow.Subscription given) {
    subscription = given;
    if (body.isDone()) {
      given.cancel(); // it failed before the answer began
      return;
    }
    given.request(Long.MAX_VALUE);
  }

  @Override
  public void onNext(List<ByteBuffer> buffers) {
    for (ByteBuffer buffer : buffers) {
      if (bytes.size() + buffer.remaining() > mostBytes) {
        fail(new IOException("the answer is longer than " + mostBytes + " bytes"));
        return;
      }
      byte[] some = new byte[buffer.remaining()];
      buffer.get(some);
      bytes.writeBytes(some);
    }
  }

  /** Ends the connection. */
  void fail(Throwable reason) {
    body.completeExceptionally(reason);
    Flow.Subscription current = subscription;
    if (current != null) {
      current.cancel();
    }
  }

  @Override
  public void onError(Throwable failure) {
    body.completeExceptionally(failure);
  }

  @Override
  public void onComplete() {
    body.complete(bytes.toByteArray());
  }
}
