/** Certificates and keys from PEM files, for servers and clients with TLS. */
@NullMarked
package tepidarium.tls;

import org.jspecify.annotations.NullMarked;
