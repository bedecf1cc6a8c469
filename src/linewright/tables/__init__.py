# SPDX-License-Identifier: Apache-2.0
"""Shipped facts, every row cited."""
