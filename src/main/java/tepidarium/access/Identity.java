package tepidarium.access;

import org.jspecify.annotations.Nullable;

/**
 * Who makes a request.
 *
 * @param name name of the person or the token
 * @param person id of the person; null for a token
 * @param session id of the session; null for a token
 * @param token id of the token; null for a person
 */
public record Identity(
    String name, Role role, @Nullable Long person, @Nullable Long session, @Nullable Long token) {}
