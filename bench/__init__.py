"""Speed and accuracy, measured beside a reference in one run; ``docs/benchmarks.md`` holds the figures."""
