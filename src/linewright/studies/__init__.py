# SPDX-License-Identifier: Apache-2.0
"""What needs many plans: how sure one order is, and what would make it surer."""
