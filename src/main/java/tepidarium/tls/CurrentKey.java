package tepidarium.tls;

import java.net.Socket;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.Principal;
import java.security.PrivateKey;
import java.security.cert.X509Certificate;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLEngine;
import javax.net.ssl.X509ExtendedKeyManager;
import org.jspecify.annotations.Nullable;

/** Gives each new connection of a server the certificate that was set last. Thread-safe. */
final class CurrentKey extends X509ExtendedKeyManager {
  private volatile @Nullable X509ExtendedKeyManager current;

  void use(KeyStore store) {
    try {
      KeyManagerFactory factory =
          KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
      factory.init(store, PemFiles.PASSWORD);
      current = (X509ExtendedKeyManager) factory.getKeyManagers()[0];
    } catch (GeneralSecurityException e) {
      throw new IllegalArgumentException("the key cannot be used", e);
    }
  }

  private X509ExtendedKeyManager manager() {
    X509ExtendedKeyManager manager = current;
    if (manager == null) {
      throw new IllegalStateException("no key is set");
    }
    return manager;
  }

  @Override
  public String @Nullable [] getClientAliases(String type, Principal @Nullable [] issuers) {
    return null;
  }

  @Override
  public @Nullable String chooseClientAlias(
      String[] types, Principal @Nullable [] issuers, @Nullable Socket socket) {
    return null;
  }

  @Override
  public String @Nullable [] getServerAliases(String type, Principal @Nullable [] issuers) {
    return manager().getServerAliases(type, issuers);
  }

  @Override
  public @Nullable String chooseServerAlias(
      String type, Principal @Nullable [] issuers, @Nullable Socket socket) {
    return manager().chooseServerAlias(type, issuers, socket);
  }

  @Override
  public @Nullable String chooseEngineServerAlias(
      String type, Principal @Nullable [] issuers, @Nullable SSLEngine engine) {
    return manager().chooseEngineServerAlias(type, issuers, engine);
  }

  @Override
  public X509Certificate @Nullable [] getCertificateChain(String alias) {
    return manager().getCertificateChain(alias);
  }

  @Override
  public @Nullable PrivateKey getPrivateKey(String alias) {
    return manager().getPrivateKey(alias);
  }
}
