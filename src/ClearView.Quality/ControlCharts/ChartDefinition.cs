using System.Collections.Immutable;

namespace ClearView.Quality.ControlCharts;

/// <summary>All that a chart needs beside its readings: phases with frozen limits, rules and subgroups.</summary>
public sealed record ChartDefinition
{
    /// <summary>A definition.</summary>
    /// <param name="phases">One phase or more, in order of time; readings before the first are taken into it.</param>
    /// <param name="rules">The rules that raise signals.</param>
    /// <param name="subgrouping">How readings become points.</param>
    /// <exception cref="ArgumentException">There is no phase, they are not in order, or a chart of individuals has subgroups.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A length of the rules is outside its range.</exception>
    public ChartDefinition(ImmutableArray<ControlPhase> phases, RunRules rules, Subgrouping subgrouping)
    {
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(subgrouping);
        rules.Check();
        if (phases.IsDefaultOrEmpty)
        {
            throw new ArgumentException("A chart needs one phase or more.", nameof(phases));
        }

        for (int i = 0; i < phases.Length; i++)
        {
            if (i > 0 && phases[i].From <= phases[i - 1].From)
            {
                throw new ArgumentException("Each phase begins after the one before.", nameof(phases));
            }

            if (phases[i].Limits.Kind == ControlChartKind.Individuals && !subgrouping.IsNone)
            {
                throw new ArgumentException("A chart of individuals has no subgroups.", nameof(subgrouping));
            }
        }

        Phases = phases;
        Rules = rules;
        Subgrouping = subgrouping;
    }

    /// <summary>The phases, in order of time.</summary>
    public ImmutableArray<ControlPhase> Phases { get; }

    /// <summary>The rules that raise signals.</summary>
    public RunRules Rules { get; }

    /// <summary>How readings become points.</summary>
    public Subgrouping Subgrouping { get; }
}
