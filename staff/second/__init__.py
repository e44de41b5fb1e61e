"""The second factor: a code from a phone that only its owner holds, and codes on paper."""
