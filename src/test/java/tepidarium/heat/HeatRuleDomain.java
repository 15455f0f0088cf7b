package tepidarium.heat;

import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.DomainContextBase;

/** Bases and ceilings, among them such as readings often lie on exactly. */
final class HeatRuleDomain extends DomainContextBase {
  @Provide
  Arbitrary<HeatRule> rules() {
    Arbitrary<Double> bases =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(-15, 55).ofScale(1), Arbitraries.of(0.0, 15.0, 20.0));
    Arbitrary<Double> aboveBase =
        Arbitraries.oneOf(
            Arbitraries.doubles().between(0.1, 30).ofScale(1), Arbitraries.of(5.0, 15.0));
    return Combinators.combine(bases, aboveBase.injectNull(0.3))
        .as((base, more) -> new HeatRule(base, more == null ? null : base + more));
  }
}
